import json

from django.core.files.storage import storages
from django.core.management import call_command
from django.test import override_settings

GATHERED = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "plots.management.gathered.GatheredFiles"},
}


def test_a_file_is_named_plainly_until_it_is_gathered_and_by_its_digest_then(tmp_path):
    with override_settings(STORAGES=GATHERED, STATIC_ROOT=tmp_path):
        assert storages["staticfiles"].url("css/base.css") == "/static/css/base.css"
        call_command("collectstatic", interactive=False, verbosity=0)
    with override_settings(STORAGES=GATHERED, STATIC_ROOT=tmp_path):
        names = json.loads((tmp_path / "staticfiles.json").read_text())["paths"]
        url = storages["staticfiles"].url("css/base.css")
        assert url == f"/static/{names['css/base.css']}"
        assert (tmp_path / f"{names['css/base.css']}.gz").exists()
        assert storages["staticfiles"].url("css/later.css") == "/static/css/later.css"
