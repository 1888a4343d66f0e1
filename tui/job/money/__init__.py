"""Money: invoices, payments, receipts."""
