from django.apps import AppConfig
from django.utils.translation import gettext_lazy as _


class PlotsConfig(AppConfig):
    name = "plots"
    verbose_name = _("Plots and people")

    def ready(self) -> None:
        from plots import checks  # noqa: F401 (registers them)
        from plots.forms.words import reword

        reword()
