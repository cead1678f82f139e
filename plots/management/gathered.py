"""Names under which browsers ask for style sheets, scripts and pictures."""

from __future__ import annotations

from whitenoise.storage import CompressedManifestStaticFilesStorage


class GatheredFiles(CompressedManifestStaticFilesStorage):
    """Names with a digest, which browsers keep for good; a file not gathered yet goes by its plain name.

    So a page is whole before `collectstatic` has run, and after an update that forgot it.
    """

    def stored_name(self, name: str) -> str:
        if self.hash_key(self.clean_name(name)) not in self.hashed_files:
            return name
        return super().stored_name(name)
