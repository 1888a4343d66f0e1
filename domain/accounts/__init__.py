"""What is billed and received: identifiers, invoices, receipts."""
