"""What people call an invoice or a receipt; read with the week, without loading a document."""


def invoice_label(number: int) -> str:
    """The number of an invoice as people write it: ``INV-7``.

    One word, so that no line of a paper breaks it and a bank's reference takes it; letters and no
    noughts in front, so that nobody takes it for a job's reference, such as ``0421``.
    """
    return f"INV-{number}"


def receipt_label(number: int) -> str:
    """The number of a receipt as people write it: ``REC-7``."""
    return f"REC-{number}"
