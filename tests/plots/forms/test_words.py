"""What fields say by themselves: in our words, once for every form."""

import pytest
from django import forms
from django.core.exceptions import ValidationError

from plots.forms.days import MonthDayField
from plots.models import User


@pytest.mark.parametrize(
    ("field", "typed", "says"),
    [
        (forms.CharField(), "", "Please fill this in."),
        (forms.CharField(max_length=3), "four", "At most 3 characters, please; this has 4."),
        (forms.CharField(), "a\x00b", "There is a sign in it that cannot be kept. Please type it again."),
        (forms.IntegerField(min_value=1), "0", "This is too little: at least 1."),
        (forms.IntegerField(), "two", "This must be a whole number."),
        (forms.DecimalField(decimal_places=2), "1.234", "At most 2 digits after the point, please."),
        (forms.DateField(), "2027-02-31", "Please write a day that there is, like 2027-05-31."),
        (forms.ChoiceField(choices=[("a", "A")]), "b", "Please choose one of those shown."),
        (forms.MultipleChoiceField(), [], "Please choose at least one."),
        (forms.BooleanField(), False, "Please tick this to go on."),
        (forms.CharField(error_messages={"required": "Its own."}), "", "Its own."),
        (MonthDayField(), "May 40", "“May 40” is not a day of the year. Write it like May 10."),
    ],
)
def test_a_field_says_it_in_our_words(field, typed, says):
    with pytest.raises(ValidationError) as refused:
        field.clean(typed)
    assert refused.value.messages == [says]


def test_a_wrong_address_is_said_in_our_words():
    with pytest.raises(ValidationError) as refused:
        User._meta.get_field("email").clean("ana@", None)
    assert refused.value.messages == ["This does not look like an email address."]
