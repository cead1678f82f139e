"""The agreement in force, and who has signed it."""

from __future__ import annotations

from dataclasses import dataclass

from django.db.models import Count, Prefetch, Q, QuerySet

from plots.models import AgreementText, AgreementVersion, Garden, Membership, Signature, User


@dataclass(frozen=True)
class Signer:
    """One adult of the garden, with their signature under the version in force, if there is one."""

    membership: Membership
    signature: Signature | None

    @property
    def person(self) -> User:
        return self.membership.user

    @property
    def state(self) -> str:
        """`"unsigned"`, `"screen"` or `"paper"`."""
        return self.signature.how if self.signature else "unsigned"


def agreement_of(garden: Garden) -> AgreementVersion | None:
    """The version in force."""
    return garden.agreements.filter(in_force_on__isnull=False).prefetch_related("texts").first()


def agreement_versions(garden: Garden) -> QuerySet[AgreementVersion]:
    """Every version with its texts and how many `signed` it, the latest first."""
    standing = Q(signatures__taken_back_at__isnull=True)
    rows = garden.agreements.annotate(signed=Count("signatures", filter=standing))
    return rows.order_by("-number").prefetch_related("texts")


def text_for(version: AgreementVersion, language: str, garden: Garden) -> AgreementText | None:
    """The text in the asked language, else in the garden's, else the one written first."""
    texts = list(version.texts.all())
    for wanted in (language, language.partition("-")[0], garden.language):
        for text in texts:
            if wanted and text.language == wanted:
                return text
    return texts[0] if texts else None


def signature_of(version: AgreementVersion, person: User) -> Signature | None:
    live = version.signatures.filter(person=person, taken_back_at__isnull=True)
    return live.select_related("text").first()


def signers_of(garden: Garden, version: AgreementVersion | None) -> list[Signer]:
    """Everybody who has to sign, by name: each active member of the garden."""
    live = Signature.objects.filter(version=version, taken_back_at__isnull=True).select_related("text")
    members = (
        garden.memberships.filter(user__is_active=True)
        .select_related("user")
        .prefetch_related(Prefetch("user__signatures", live, to_attr="live_signatures"))
        .order_by("user__name", "pk")
    )
    return [
        Signer(member, member.user.live_signatures[0] if member.user.live_signatures else None)
        for member in members
    ]
