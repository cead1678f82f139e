import pytest

from plots import checks
from plots.environment import Site

HTTPS = Site("https", "garden.example.org", None, "")
PLAIN = Site("http", "192.168.1.5", None, "")


def ids(check) -> list[str]:
    return [found.id for found in check(None)]


def test_a_data_folder_that_cannot_be_written(settings, monkeypatch):
    assert ids(checks.data_folder_can_be_written) == []
    monkeypatch.setattr("os.access", lambda path, mode: False)
    (found, *_rest) = checks.data_folder_can_be_written(None)
    assert (found.id, "DATA_DIR" in found.hint) == ("plots.E001", True)


@pytest.mark.parametrize(
    ("site", "found"), [(HTTPS, []), (PLAIN, ["plots.W001"]), (Site("http", "127.0.0.1", 8000, ""), [])]
)
def test_plain_http_is_for_this_machine(settings, site, found):
    settings.SITE, settings.SITE_URL = site, site.url
    assert ids(checks.site_is_not_spoken_to_in_clear) == found


def test_static_files_must_be_gathered(settings, tmp_path):
    settings.STATIC_ROOT = tmp_path
    assert ids(checks.static_files_are_collected) == ["plots.W002"]
    (tmp_path / "staticfiles.json").touch()
    assert ids(checks.static_files_are_collected) == []


def test_https_needs_a_proxy_that_says_so(settings):
    settings.SITE, settings.TRUSTED_PROXIES = HTTPS, 0
    assert ids(checks.proxy_tells_the_address) == ["plots.W003"]
    settings.TRUSTED_PROXIES = 1
    assert ids(checks.proxy_tells_the_address) == []
