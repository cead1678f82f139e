"""When a plot was last worked, in a page's words."""

from django import template

from schedules.wording.care import worked_text

register = template.Library()
register.filter("worked", worked_text)
