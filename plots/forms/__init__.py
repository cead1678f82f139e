"""Forms of the ground and its people."""

from django.forms.renderers import TemplatesSetting


class PageRenderer(TemplatesSetting):
    """Draws every field with our own partial: label above, message beside, what was typed kept."""

    field_template_name = "_field.html"
