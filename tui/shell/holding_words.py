"""What a backup holds, in words."""

from domain.days.calendar import show_date
from domain.job.invoice_label import invoice_label
from storage.backups.holding import Holding


def holding_words(holding: Holding) -> str:
    """Say it in one line: ``12 jobs, last invoice INV-9, last change Thu 25 Jun 2026 18:02``."""
    jobs = "1 job" if holding.jobs == 1 else f"{holding.jobs} jobs"
    number = holding.last_invoice
    invoice = f"last invoice {invoice_label(number)}" if number else "no invoice"
    at = holding.last_change
    change = f"last change {show_date(at.date())} {at:%H:%M}" if at else "nothing saved"
    return f"{jobs}, {invoice}, {change}"
