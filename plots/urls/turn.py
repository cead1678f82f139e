"""Addresses: the season turn, dues and agreements."""

from django.urls import path

from plots.views import agreements, dues, holding, own_season, part_dues, proposals, turn

in_garden = [
    path("turn/", turn.turn, name="turn"),
    path("turn/ask/", turn.round_new, name="round_new"),
    path("turn/<int:pk>/", turn.round, name="round"),
    path("turn/<int:pk>/answer/<int:assignment_pk>/", turn.round_answer, name="round_answer"),
    path("turn/<int:pk>/undo/<int:renewal_pk>/", turn.renewal_undo, name="renewal_undo"),
    path("turn/<int:pk>/remind/", turn.round_remind, name="round_remind"),
    path("turn/<int:pk>/close/", turn.round_close, name="round_close"),
    path("turn/<int:pk>/plots/", proposals.proposals, name="proposals"),
    path("turn/<int:pk>/move/<int:renewal_pk>/", proposals.renewal_move, name="renewal_move"),
    path("mine/", own_season.own_season, name="own_season"),
    path("plots/<int:pk>/holder/<int:assignment_pk>/hand-over/", holding.hand_over, name="hand_over"),
    path("plots/<int:pk>/holder/<int:assignment_pk>/reopen/", holding.reopen, name="reopen"),
    path("dues/", dues.dues, name="dues"),
    path("dues/draw-up/", dues.dues_draw_up, name="dues_draw_up"),
    path("dues/new/", dues.due_new, name="due_new"),
    path("dues/part/", part_dues.dues_part, name="dues_part"),
    path("dues/part/<int:pk>/", part_dues.due_part, name="due_part"),
    path("dues/<int:pk>/", dues.due, name="due"),
    path("agreement/", agreements.agreement, name="agreement"),
    path("agreement/signatures/", agreements.signatures, name="signatures"),
    path("agreement/paper/", agreements.signed_on_paper, name="signed_on_paper"),
    path("agreement/signatures/<int:pk>/back/", agreements.signature_back, name="signature_back"),
    path("agreement/versions/", agreements.versions, name="agreement_versions"),
    path("agreement/versions/new/", agreements.version_new, name="agreement_version_new"),
    path("agreement/versions/<int:pk>/", agreements.version, name="agreement_version"),
    path("agreement/versions/<int:pk>/in-force/", agreements.version_in_force, name="agreement_in_force"),
    path("agreement/versions/<int:pk>/texts/new/", agreements.text_new, name="agreement_text_new"),
    path("agreement/versions/<int:pk>/texts/<int:text_pk>/", agreements.text_edit, name="agreement_text"),
]
