"""What is next in a matter, in a page's words."""

from django import template

from plots.wording.care import asked_text, reason_text

register = template.Library()
register.filter("asked", asked_text)
register.filter("reason", reason_text)
