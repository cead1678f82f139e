"""Static files under their plain names."""

from functools import cache

from django.contrib.staticfiles.storage import StaticFilesStorage


class PlainNames(StaticFilesStorage):
    """Works the address of a file out once, as the gathered files of an installation do; pages name many."""

    def url(self, name: str) -> str:
        return self._url_below(name, self.base_url)

    @cache  # noqa: B019 - one for the whole run
    def _url_below(self, name: str, _base: str) -> str:
        return super().url(name)
