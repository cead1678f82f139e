"""Addresses: members, their parts, duties and where things are."""

from django.urls import path

from plots.views import (
    forgetting,
    garden_things,
    households,
    invitations,
    own_part,
    people,
    roster_import,
    sharing,
)

urlpatterns = [path("link/", invitations.ask_for_link, name="link_ask")]
in_garden = [
    path("members/", people.members, name="members"),
    path("members/new/", people.member_new, name="member_new"),
    path("members/known/", people.member_known, name="member_known"),
    path("members/import/", roster_import.roster_import, name="roster_import"),
    path("members/left/", forgetting.people_left, name="people_left"),
    path("members/left/<int:pk>/forget/", forgetting.person_forget, name="person_forget"),
    path("members/me/", own_part.own_part, name="own_part"),
    path("members/<int:pk>/", people.member, name="member"),
    path("members/<int:pk>/edit/", people.member_edit, name="member_edit"),
    path("members/<int:pk>/paper/", own_part.paper_consent, name="paper_consent"),
    path("members/<int:pk>/link/", invitations.member_link, name="member_link"),
    path("members/<int:pk>/link/post/", invitations.member_link_post, name="member_link_post"),
    path("members/<int:pk>/leave/", people.member_leave, name="member_leave"),
    path("plots/<int:pk>/holder/<int:assignment_pk>/shared/", sharing.co_gardeners, name="co_gardeners"),
    path("households/", households.households, name="households"),
    path("duties/", garden_things.duties, name="duties"),
    path("duties/new/", garden_things.duty_new, name="duty_new"),
    path("duties/<int:pk>/", garden_things.duty_edit, name="duty_edit"),
    path("duties/<int:pk>/remove/", garden_things.duty_remove, name="duty_remove"),
    path("where/", garden_things.whereabouts, name="whereabouts"),
    path("where/new/", garden_things.whereabout_new, name="whereabout_new"),
    path("where/<int:pk>/", garden_things.whereabout_edit, name="whereabout_edit"),
    path("where/<int:pk>/remove/", garden_things.whereabout_remove, name="whereabout_remove"),
]
