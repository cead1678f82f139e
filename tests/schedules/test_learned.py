"""What pickings teach about days to maturity."""

from __future__ import annotations

from schedules.learned import Grown, Taught, as_taught, taught
from tests.schedules.records import catalogue


def test_records_and_published_days_are_weighed() -> None:
    carrot = catalogue()["carrot"]
    low, high = carrot.maturity_days_low, carrot.maturity_days_high
    late = [Grown(expected=70, took=84)] * 3
    lesson = taught(carrot, late)
    assert lesson == Taught((low, high), (round(low * 1.1), round(high * 1.1)), records=3, left_out=0)
    assert as_taught(carrot, lesson).maturity_days_low == round(low * 1.1)
    assert lesson.days_changed == round((low + high) * 0.05)
    many = taught(carrot, late * 9)
    assert many.learned == (round(low * 1.18), round(high * 1.18))


def test_one_record_moves_little_and_slips_move_nothing() -> None:
    carrot = catalogue()["carrot"]
    one = taught(carrot, [Grown(70, 84)])
    assert one.learned == (round(carrot.maturity_days_low * 1.05), round(carrot.maturity_days_high * 1.05))
    slips = taught(carrot, [Grown(70, 150), Grown(70, 20), Grown(0, 10)])
    assert (slips.records, slips.left_out, slips.learned) == (0, 2, slips.published)
    assert as_taught(carrot, slips) is carrot


def test_nothing_is_taught_without_records_or_published_days() -> None:
    crops = catalogue()
    assert taught(crops["carrot"], []) is None
    unknown = next(crop for crop in crops.values() if crop.maturity_days_low is None)
    assert taught(unknown, [Grown(70, 84)]) is None
