"""Addresses: workdays, hours and dates of the season."""

from django.urls import path

from plots.views import dates, hours, make_up, workday_people, workdays

in_garden = [
    path("workdays/", workdays.workdays, name="workdays"),
    path("workdays/new/", workdays.workday_new, name="workday_new"),
    path("workdays/<int:pk>/", workdays.workday, name="workday"),
    path("workdays/<int:pk>/people/", workday_people.workday_people, name="workday_people"),
    path("workdays/<int:pk>/edit/", workdays.workday_edit, name="workday_edit"),
    path("workdays/<int:pk>/hold/", workdays.workday_hold, name="workday_hold"),
    path("workdays/<int:pk>/sheet/", workdays.workday_sheet, name="workday_sheet"),
    path("tasks/<int:pk>/join/", workdays.task_join, name="task_join"),
    path("tasks/<int:pk>/leave/", workdays.task_leave, name="task_leave"),
    path("make-up/", make_up.make_up_jobs, name="make_up_jobs"),
    path("make-up/new/", make_up.make_up_job_new, name="make_up_job_new"),
    path("make-up/<int:pk>/edit/", make_up.make_up_job_edit, name="make_up_job_edit"),
    path("make-up/<int:pk>/close/", make_up.make_up_job_close, name="make_up_job_close"),
    path("make-up/<int:pk>/done/", make_up.make_up_job_done, name="make_up_job_done"),
    path("hours/", hours.hours, name="hours"),
    path("hours/own/", hours.hours_own, name="hours_own"),
    path("hours/<int:pk>/", hours.hours_person, name="hours_person"),
    path("hours/<int:pk>/excuse/<int:season_pk>/", hours.hours_excuse, name="hours_excuse"),
    path("hours/done/<int:pk>/remove/", hours.hours_remove, name="hours_remove"),
    path("hours/done/<int:pk>/restore/", hours.hours_restore, name="hours_restore"),
    path("dates/", dates.dates, name="dates"),
    path("dates/new/", dates.date_new, name="date_new"),
    path("dates/<int:pk>/", dates.date_edit, name="date_edit"),
    path("dates/<int:pk>/remove/", dates.date_remove, name="date_remove"),
    path("dates/<int:pk>/restore/", dates.date_restore, name="date_restore"),
    path("dates/copy/<int:year>/", dates.dates_copy, name="dates_copy"),
    path("dates.ics", dates.dates_ics, name="dates_ics"),
]
