"""Members, their part in a garden, and the links and limits of signing in."""

from __future__ import annotations

from datetime import datetime
from typing import Any, ClassVar

from django.contrib.auth.models import AbstractBaseUser, BaseUserManager
from django.core.validators import RegexValidator
from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from plots.models.fields import FoldedField, TidyField, an_email_address
from plots.models.ground import Garden, NerveChoice
from plots.models.roster import Household
from plots.powers import Power, powers_of


class UserManager(BaseUserManager["User"]):
    def create_user(self, sign_in_name: str, *, name: str, password: str | None = None, **rest: Any) -> User:
        """A person who signs in by one-time links unless a password is given."""
        user = self.model(sign_in_name=sign_in_name, name=name, **rest)
        user.set_password(password)
        user.save()
        return user

    def active_in(self, garden: Garden) -> models.QuerySet[User]:
        """The members of a garden whose accounts are open."""
        return self.filter(memberships__garden=garden, is_active=True)

    def get_by_natural_key(self, username: str | None) -> User:
        """The person who signs in with this name or email address."""
        column = "email" if "@" in (username or "") else "sign_in_name"
        return self.get(**{column: username})


class User(AbstractBaseUser):
    """A person; one account serves every garden of the installation, and needs neither email nor password."""

    name = TidyField(_("name"), max_length=120)
    sign_in_name = FoldedField(
        _("sign-in name"),
        max_length=60,
        unique=True,
        validators=[RegexValidator("@", _("Only an email address contains an @."), inverse_match=True)],
        error_messages={"unique": _("Somebody else already signs in with this name.")},
    )
    email = FoldedField(
        _("email"),
        max_length=254,
        unique=True,
        null=True,
        blank=True,
        validators=[an_email_address],
        error_messages={"unique": _("Somebody else already uses this email address.")},
    )
    phone = TidyField(_("telephone"), max_length=40, blank=True)
    address = TidyField(_("postal address"), max_length=300, blank=True)
    language = models.CharField(_("language"), max_length=12, blank=True)
    is_active = models.BooleanField(default=True)
    is_staff = models.BooleanField(_("may make gardens in this installation"), default=False)
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    USERNAME_FIELD = "sign_in_name"
    EMAIL_FIELD = "email"
    REQUIRED_FIELDS: ClassVar[list[str]] = ["name"]
    objects = UserManager()

    class Meta:
        ordering = ["name", "pk"]
        verbose_name = _("person")
        verbose_name_plural = _("people")
        constraints = [
            # So that one box can take either of them, and nobody can sign in by another's address.
            models.CheckConstraint(
                condition=~models.Q(sign_in_name__contains="@"), name="sign_in_name_has_no_at"
            ),
            models.CheckConstraint(
                condition=models.Q(email__isnull=True) | models.Q(email__contains="@"), name="email_has_an_at"
            ),
        ]

    def __str__(self) -> str:
        return self.name


class Role(models.TextChoices):
    COORDINATOR = "coordinator", _("coordinator")
    HELPER = "helper", _("helper")
    MEMBER = "member", _("member")


class ContactFor(models.TextChoices):
    """Who in the garden may see one way of reaching a member, by that member's own consent."""

    KEEPERS = "keepers", _("coordinators, and helpers trusted with the roster")
    MEMBERS = "members", _("every member of the garden")


CONTACTS = ("email", "phone", "address")


class Membership(models.Model):
    """That a person belongs to a garden, as what, with whom, and who may see how to reach them."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="memberships")
    user = models.ForeignKey(User, models.CASCADE, related_name="memberships")
    role = models.CharField(_("role"), max_length=12, choices=Role.choices, default=Role.MEMBER)
    powers = models.JSONField(_("powers"), default=list, blank=True)  # words of plots.powers, for a helper
    household = models.ForeignKey(
        Household, models.SET_NULL, null=True, blank=True, related_name="memberships",
        verbose_name=_("household"),
    )  # fmt: skip
    email_for = models.CharField(
        _("my email is for"), max_length=8, choices=ContactFor.choices, default=ContactFor.KEEPERS
    )
    phone_for = models.CharField(
        _("my telephone is for"), max_length=8, choices=ContactFor.choices, default=ContactFor.KEEPERS
    )
    address_for = models.CharField(
        _("my postal address is for"), max_length=8, choices=ContactFor.choices, default=ContactFor.KEEPERS
    )
    emergency_name = TidyField(_("to be called in an emergency"), max_length=120, blank=True)
    emergency_phone = TidyField(_("their telephone"), max_length=40, blank=True)
    weekly_letter = models.BooleanField(_("send me the weekly letter"), default=False)
    nerve = models.CharField(_("nerve"), max_length=10, choices=NerveChoice.choices, blank=True)
    letter_on = models.DateField(null=True, editable=False)  # day of the last one
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["garden", "user"], name="one_membership_per_garden"),
            models.CheckConstraint(condition=models.Q(role__in=Role.values), name="membership_role_known"),
            models.CheckConstraint(
                condition=models.Q(
                    email_for__in=ContactFor.values,
                    phone_for__in=ContactFor.values,
                    address_for__in=ContactFor.values,
                ),
                name="membership_consent_known",
            ),
            models.CheckConstraint(
                condition=models.Q(nerve__in=["", *NerveChoice.values]), name="membership_nerve_known"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.user} ({self.garden}, {self.get_role_display()})"

    def contacts_for_members(self) -> dict[str, str]:
        """What this member lets every other member see, by field; empty ones are left out."""
        agreed = [name for name in CONTACTS if getattr(self, f"{name}_for") == ContactFor.MEMBERS]
        return {name: value for name in agreed if (value := getattr(self.user, name))}

    def all_powers(self) -> frozenset[Power]:
        return powers_of(self.role, self.powers)

    def has(self, power: Power) -> bool:
        return power in self.all_powers()


class SignInLink(models.Model):
    """A one-time link that signs a person in; only a digest of its secret is kept."""

    user = models.ForeignKey(User, models.CASCADE, related_name="sign_in_links")
    token_hash = models.CharField(max_length=64, unique=True)
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    expires_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True, editable=False)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=models.Q(expires_at__gt=models.F("made_at")), name="link_expires_after_it_is_made"
            )
        ]

    def __str__(self) -> str:
        return f"link for {self.user}, made {self.made_at:%Y-%m-%d %H:%M}"

    def works_at(self, moment: datetime) -> bool:
        return self.used_at is None and moment < self.expires_at and self.user.is_active


class SignInFailure(models.Model):
    """How often signing in or a guess at a stake's code failed of late, by a digest of what from where."""

    key = models.CharField(max_length=64, unique=True)
    failures = models.PositiveIntegerField(default=0)
    since = models.DateTimeField(default=timezone.now)

    def __str__(self) -> str:
        return f"{self.failures} since {self.since:%Y-%m-%d %H:%M}"


class Installation(models.Model):
    """One row, made with the first garden: of two first visitors at once, the later one cannot make it."""

    only = models.BooleanField(primary_key=True, default=True)
    founded_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        constraints = [models.CheckConstraint(condition=models.Q(only=True), name="one_installation")]

    def __str__(self) -> str:
        return f"founded {self.founded_at:%Y-%m-%d}"
