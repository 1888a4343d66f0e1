"""The week and what needs doing tonight.

``values`` what it is made from · ``days`` the seven days · ``tonight_order`` the kinds of task and
their order · ``tasks`` one line of the evening's list · ``work_tasks``, ``money_tasks`` and
``quote_tasks`` what puts a job on it · ``tonight`` what stands on it · ``debts``
what is owed by age · ``plan`` the first screen. All of it is read before anything heavy is loaded,
so nothing here, nor what it imports, may load pint, the solver or the holidays.
"""

from domain.days.forecast import Forecast
from domain.days.weather import Verdict
from domain.week.days import DayView, Entry, PictureState, picture_of, plan_days
from domain.week.tasks import Task
from domain.week.tonight_order import TaskKind, TaskSign
from domain.week.week_data import Bill, Delivery, WeekData, WeekLine, with_holidays
from domain.week.week_plan import Figures, Week, first_shown, monday_of, plan_week

__all__ = [
    "Bill",
    "DayView",
    "Delivery",
    "Entry",
    "Figures",
    "Forecast",
    "PictureState",
    "Task",
    "TaskKind",
    "TaskSign",
    "Verdict",
    "Week",
    "WeekData",
    "WeekLine",
    "first_shown",
    "monday_of",
    "picture_of",
    "plan_days",
    "plan_week",
    "with_holidays",
]
