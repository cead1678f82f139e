"""The demo as its command serves it, in a process of its own: its links let one in and are made anew."""

import re
import socket
import subprocess
import sys
from http.cookiejar import CookieJar
from urllib.parse import urlencode
from urllib.request import HTTPCookieProcessor, build_opener

from tests.project.source import ROOT


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def command(folder, *options):
    # The address and the database of a real garden, which the demo has to leave alone.
    environment = {
        "DATA_DIR": str(folder),
        "DATABASE_URL": "postgres://nobody@127.0.0.1:1/real",
        "SITE_URL": "https://x.example",
    }
    return {
        "args": [sys.executable, str(ROOT / "manage.py"), "demo", *options],
        "env": environment,
        "text": True,
    }


def test_it_is_served_and_its_links_let_one_in(tmp_path):
    port = free_port()
    server = subprocess.Popen(**command(tmp_path, "--port", str(port)), stdout=subprocess.PIPE)
    try:
        said = ""
        while "Serving at" not in said:
            line = server.stdout.readline()
            assert line, said
            said += line
        links = re.findall(rf"http://127\.0\.0\.1:{port}/link/\S+/", said)
        assert len(links) == 3
        page = sign_in(links[1])
        assert "Linnet Lane Garden" in page
        assert "Signed in as" in page
        again = subprocess.run(
            **command(tmp_path, "--no-serve", f"--port={port}"), capture_output=True, check=True
        )
        new_links = re.findall(rf"http://127\.0\.0\.1:{port}/link/\S+/", again.stdout)
        assert len(set(links) | set(new_links)) == 6
        assert "Making the demo garden" not in again.stdout
    finally:
        server.terminate()
        server.wait(10)
        server.stdout.close()


def sign_in(link: str) -> str:
    jar = CookieJar()
    browser = build_opener(HTTPCookieProcessor(jar))
    for _try in range(50):
        try:
            browser.open(link, timeout=10).close()
            break
        except OSError:
            subprocess.run(["sleep", "0.2"], check=True)
    token = next(cookie.value for cookie in jar if cookie.name == "csrf")
    with browser.open(link, urlencode({"csrfmiddlewaretoken": token}).encode(), timeout=20) as answer:
        return answer.read().decode()
