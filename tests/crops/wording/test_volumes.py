"""Volumes are read as they are ordered."""

from crops.volumes import M3_PER_CUBIC_FOOT, M3_PER_CUBIC_YARD
from crops.wording.volumes import bulk_text


def test_small_and_large_volumes_have_their_own_unit():
    texts = [bulk_text(cubic_feet * M3_PER_CUBIC_FOOT, "us") for cubic_feet in (2.667, 12.4, 26.9, 27, 324)]
    assert texts == ["2.7\xa0cu ft", "12\xa0cu ft", "27\xa0cu ft", "1\xa0cu yd", "12\xa0cu yd"]
    assert [bulk_text(m3, "metric") for m3 in (0.0042, 0.12, 1.2)] == ["4.2\xa0L", "120\xa0L", "1.2\xa0m³"]
    assert bulk_text(2 * M3_PER_CUBIC_YARD, "us") == "2\xa0cu yd"
