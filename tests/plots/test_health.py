import pytest
from django.db import OperationalError


def test_live_does_not_ask_the_database(client):
    response = client.get("/health/live")
    assert (response.status_code, response.content) == (200, b"live\n")
    assert response.headers["Content-Type"] == "text/plain; charset=utf-8"


@pytest.mark.django_db
def test_ready_when_all_is_well(client):
    response = client.get("/health/ready")
    assert (response.status_code, response.content) == (200, b"ready\n")


@pytest.mark.django_db
def test_not_ready_says_what_is_wrong(client, monkeypatch):
    def broken(connection):
        raise OperationalError

    monkeypatch.setattr("plots.health.MigrationExecutor", broken)
    monkeypatch.setattr("os.access", lambda path, mode: False)
    response = client.get("/health/ready")
    assert response.status_code == 503
    assert response.content == (
        b"not ready: the database does not answer; the data folder cannot be written\n"
    )


@pytest.mark.django_db
def test_not_ready_while_migrations_are_missing(client, monkeypatch):
    monkeypatch.setattr("plots.health.MigrationExecutor.migration_plan", lambda *args: ["one"])
    assert client.get("/health/ready").content == b"not ready: migrations have not been applied\n"
