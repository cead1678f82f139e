"""A secret that is made once and then kept in a file that only its owner can read."""

from __future__ import annotations

import os
import secrets
from pathlib import Path


def kept_secret(path: Path) -> str:
    """The secret in `path`, made first if the file is missing; two starts at once agree on one secret."""
    if not path.exists():
        draft = path.with_name(f".{path.name}.{os.getpid()}")
        with open(
            os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "w", encoding="ascii"
        ) as file:
            file.write(secrets.token_urlsafe(48))
        try:
            os.link(draft, path)  # unlike a rename, never replaces the file of whoever came first
        except FileExistsError:
            pass
        finally:
            draft.unlink()
    return path.read_text(encoding="ascii").strip()
