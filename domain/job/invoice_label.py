"""What people call a numbered paper; read with the week, without loading a document."""


def invoice_label(number: int) -> str:
    """The number of an invoice as people write it: ``INV-7``.

    One word, so that no line of a paper breaks it and a bank's reference takes it; letters and no
    noughts in front, so that nobody takes it for a job's reference, such as ``0421``.
    """
    return f"INV-{number}"


def receipt_label(number: int) -> str:
    """The number of a receipt as people write it: ``REC-7``."""
    return f"REC-{number}"


def credit_note_label(number: int) -> str:
    """The number of a credit note as people write it: ``CRN-7``."""
    return f"CRN-{number}"


def mistake_label(number: int) -> str:
    """The number of the note that cancels a payment, as people write it: ``MIS-7``."""
    return f"MIS-{number}"


def refund_label(number: int) -> str:
    """The number of a refund as people write it: ``RFD-7``."""
    return f"RFD-{number}"
