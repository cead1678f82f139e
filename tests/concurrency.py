"""Several connections to one database at once, as two people's clicks make them."""

import sqlite3
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, contextmanager
from threading import Barrier

from django.db import connection


@contextmanager
def shared_database(folder):
    """Moves SQLite's test database from memory into a file: memory has only one connection."""
    if connection.vendor != "sqlite":
        yield
        return
    memory, settings = connection.connection, connection.settings_dict
    name, path = settings["NAME"], folder / "shared.sqlite3"
    with closing(sqlite3.connect(path)) as copy:
        memory.backup(copy)
    settings["NAME"], connection.connection = str(path), None
    try:
        yield
    finally:
        connection.close()
        settings["NAME"], connection.connection = name, memory


def at_once(action, arguments) -> list:
    """What `action` gave for each argument, all begun at the same moment; an exception is an answer too."""
    barrier = Barrier(len(arguments))

    def run(argument):
        try:
            barrier.wait(timeout=20)
            return action(argument)
        except Exception as error:
            return error
        finally:
            connection.close()

    with ThreadPoolExecutor(len(arguments)) as pool:
        return list(pool.map(run, arguments))
