"""What people call an invoice; read with the week, so that no document is loaded for it."""


def invoice_label(number: int) -> str:
    """The number of an invoice as people write it: ``INV-7``.

    One word, so that no line of a paper breaks it and a bank's reference takes it; letters and no
    noughts in front, so that nobody takes it for a job's reference, such as ``0421``.
    """
    return f"INV-{number}"
