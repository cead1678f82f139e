"""What a planting and a plot are owed, in the cases that the published checks do not reach."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crops.facts import CropFacts, Hardiness, Method
from crops.water_needs import WaterNeeds, water_needs
from schedules.intervals import Treated, hold_on
from schedules.water import Grown, Weather, crop_water, filled, is_recent, over_the_plot, rain_by_day
from schedules.water.balance import next_day

TODAY = date(2026, 7, 8)
SUNDAY = date(2026, 7, 12)
NEEDS = WaterNeeds(0.6, 1.0, 0.8, 0.5, 0.4, (0.2, 0.3, 0.3, 0.2), "as given")


def days(number: int, reference: float | None = 5.0, rain: float = 0.0) -> list[Weather]:
    return [Weather(TODAY - timedelta(days=ago), reference, rain) for ago in range(number, -1, -1)]


def test_enough_lasts_until_what_is_easily_had_is_used_up() -> None:
    grown = Grown(1, "Bean", NEEDS, TODAY - timedelta(days=60), TODAY + timedelta(days=39))
    found = crop_water(grown, filled(days(4)), {}, today=TODAY, until=SUNDAY)
    assert found is not None
    assert (round(found.missing, 1), round(found.use, 1), round(found.ready, 1)) == (20.0, 5.0, 30.0)
    assert found.by == TODAY + timedelta(days=2)
    assert found.owed == pytest.approx(30.0)
    assert over_the_plot([found]) == found.owed

    rained = crop_water(grown, filled([*days(4)[:-1], Weather(TODAY, 5, 18)]), {}, today=TODAY, until=SUNDAY)
    assert rained is not None
    assert (round(rained.missing, 1), rained.owed, rained.by) == (2.0, 0.0, TODAY + timedelta(days=5))
    poured = crop_water(grown, filled(days(4)), {TODAY: 18}, today=TODAY, until=SUNDAY)
    assert poured == rained
    assert crop_water(Grown(1, "Bean", NEEDS, TODAY), filled(days(4)), {}, today=TODAY, until=SUNDAY) is None


def test_recent_weather_is_half_of_the_last_fortnight() -> None:
    week_old = [one for one in days(30) if (TODAY - one.day).days > 7]
    assert is_recent(week_old, TODAY)
    assert not is_recent(week_old[:-1], TODAY)
    gap = filled([*days(30)[:20], *days(10, None)])
    assert {reference for _day, reference in gap} == {5.0}
    assert filled(days(3, None)) == []


def test_a_crop_without_a_row_takes_its_family_s_and_its_roots_by_class() -> None:
    def facts(slug: str, family: str, roots: str) -> CropFacts:
        told = {"slug": slug, "name": slug, "botanical_name": "", "family": family}
        rules = {"hardiness": Hardiness.HARDY, "method": Method.DIRECT}
        return CropFacts(**told, **rules, rooting_depth_class=roots)

    assert water_needs(facts("tomato", "Solanaceae", "shallow")).root_m == 0.7
    own = water_needs(facts("own-tomatillo", "Solanaceae", "shallow"))
    assert (own.seen_for, own.kc_full, own.root_m, own.share) == ("Solanum family", 1.15, 0.3, 0.3)
    assert water_needs(facts("own-tea", "Theaceae", "")).root_m == 0.5


@given(
    st.floats(0, 60),
    st.floats(0, 12),
    st.floats(0.2, 1.3),
    st.floats(0, 200),
    st.floats(0, 100),
    st.floats(0.1, 0.7),
)
def test_the_root_zone_never_holds_less_than_nothing_or_more_than_it_can(
    depletion: float, reference: float, kc: float, rain: float, water: float, share: float
) -> None:
    day = next_day(depletion, reference=reference, kc=kc, total=60, share=share, rain=rain, water=water)
    assert 0 <= day.depletion <= 60
    assert 0 <= day.stress <= 1
    assert 0 <= day.used <= day.need + 1e-9
    lost = depletion - day.rain_counted - water + day.used + day.drained
    assert day.depletion == pytest.approx(min(60, lost))


def test_readings_take_the_place_of_the_station_s_rain() -> None:
    record = {TODAY - timedelta(days=ago): 1.0 for ago in range(5)}
    fallen = rain_by_day(record, [(TODAY - timedelta(days=2), TODAY, 9.0)])
    assert sum(fallen.values()) == 12.0
    assert fallen[TODAY] == 9.0


def test_the_longest_interval_holds_and_only_what_it_was_used_on() -> None:
    bean = Treated(1, date(2026, 7, 1), 7, "First", planting=5, crop=2)
    plot = Treated(1, date(2026, 7, 3), 3, "Second")
    used = [bean, plot]
    assert hold_on(used, plot=1, planting=5, crop=2, day=date(2026, 7, 3)) == bean
    assert hold_on(used, plot=1, planting=6, crop=2, day=date(2026, 7, 5)) == plot
    assert hold_on(used, plot=1, planting=6, crop=2, day=date(2026, 7, 6)) is None
    assert hold_on(used, plot=1, crop=2, day=date(2026, 7, 7)) == bean
    assert hold_on(used, plot=1, crop=3, day=date(2026, 7, 7)) is None
    assert hold_on(used, plot=1, day=date(2026, 7, 7)) == bean
    assert hold_on(used, plot=2, planting=5, crop=2, day=date(2026, 7, 3)) is None
    assert hold_on(used, plot=1, planting=5, day=date(2026, 6, 30)) is None
