from concurrent.futures import ThreadPoolExecutor

from plots.secret_file import kept_secret


def test_a_secret_is_made_once_and_kept_for_its_owner(tmp_path):
    path = tmp_path / "secret_key"
    secret = kept_secret(path)
    assert len(secret) >= 50
    assert kept_secret(path) == secret
    assert path.stat().st_mode & 0o777 == 0o600
    assert [file.name for file in tmp_path.iterdir()] == ["secret_key"]


def test_starts_at_once_agree(tmp_path, monkeypatch):
    pids = iter(range(100))
    monkeypatch.setattr("os.getpid", lambda: next(pids))
    with ThreadPoolExecutor(8) as pool:
        secrets = set(pool.map(kept_secret, [tmp_path / "secret_key"] * 16))
    assert len(secrets) == 1
