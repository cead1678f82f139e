"""Commands for scripts: results alone on standard output, one sentence on standard error."""

from __future__ import annotations

import os
import sys
from typing import ClassVar

from django.core.management.base import BaseCommand, CommandError, handle_default_options


class ScriptCommand(BaseCommand):
    """A command that fails with one plain sentence and a non-zero status."""

    requires_system_checks: ClassVar[list[str]] = []

    def run_from_argv(self, argv: list[str]) -> None:
        """Run; unlike Django's own way, neither usage text nor the error's class name is printed."""
        try:
            parser = self.create_parser(argv[0], argv[1])
            options = parser.parse_args(argv[2:])
            handle_default_options(options)
            values = vars(options)
            self.execute(*values.pop("args", ()), **values)
            sys.stdout.flush()
        except CommandError as error:
            sentence = str(error).removeprefix("Error: ")
            self.stderr.write(sentence[:1].upper() + sentence[1:].rstrip(".") + ".")
            sys.exit(error.returncode)
        except BrokenPipeError:  # the reader has seen enough
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            sys.exit(1)
