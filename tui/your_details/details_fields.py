"""The fields of the trader's details, in the order of the form."""

from domain.days.calendar import NATIONS
from domain.trader import CisStanding, VatStanding
from tui.widgets.field_row import Field
from tui.widgets.line_input import Takes

REGISTERED = ("vat_standing", VatStanding.STANDARD.value)

WHO = (
    Field("name", "Name", section="Who you are", hint="as on the bank account"),
    Field("trading_as", "Trading as", hint="if not your own name"),
    Field("address", "Address", example="3 Tannery Row, Osmerton, SY8 1AA"),
    Field("phone", "Telephone", example="01632 960117"),
    Field("email", "E-mail", example="ann@example.com"),
)
MONEY = (
    Field("bank_name", "Name on the account", section="How you are paid"),
    Field("sort_code", "Sort code", example="00-00-00", takes=Takes.FIGURE),
    Field("account", "Account number", example="12345678", takes=Takes.FIGURE),
    Field("days_to_pay", "Days to pay", "days", example="14", takes=Takes.COUNT),
    Field("vat_standing", "VAT", choices=tuple(VatStanding), section="Tax"),
    Field("vat_number", "VAT number", hint="9 digits", only_for=REGISTERED, takes=Takes.FIGURE),
    Field("utr", "UTR", hint="10 digits, on your HMRC letters", takes=Takes.FIGURE),
    Field("cis_standing", "CIS standing", choices=tuple(CisStanding)),
)
PAPERS = (
    Field("waste_carrier", "Waste carrier registration", section="Registrations and insurance"),
    Field(
        "waste_expires", "Registered until", example="31 Mar 2028, or 3 years", takes=Takes.LAST_DAY
    ),
    Field("liability_policy", "Liability policy"),
    Field(
        "liability_expires", "Insured until", example="31 Mar 2027, or 1 year", takes=Takes.LAST_DAY
    ),
    Field("employers_policy", "Employer's liability", hint="if anybody helps you"),
    Field("employers_expires", "Helper insured until", example="31 Mar 2027", takes=Takes.LAST_DAY),
)
LOOK = (
    Field("colour", "Colour", section="Your papers", hint="navy, dark green or #1f4e79"),
    Field("logo", "Logo", hint="a PNG or SVG file; the book keeps a copy"),
)
RATES = (
    Field("hour", "Labour", "£ an hour", section="What you charge", takes=Takes.FIGURE),
    Field("mile", "Travel", "£ a mile", takes=Takes.FIGURE),
    Field("disposal_kg", "Old covering", "£ a kg taken away", takes=Takes.FIGURE),
    Field("deck_metre", "Boards found rotten", "£ a metre, fitted", takes=Takes.FIGURE),
    Field("minimum_charge", "Minimum charge", "£ a job", takes=Takes.FIGURE),
    Field("contingency", "Contingency", "% on cost", takes=Takes.COUNT),
    Field("markup", "Markup", "% on materials", takes=Takes.COUNT),
)
LABOUR = (
    Field(
        "set_up",
        "Setting up",
        "hours per job",
        section="Your work rates",
        takes=Takes.QUARTERS,
    ),
    Field("strip", "Stripping", "hours per m² per layer", takes=Takes.FIGURE),
    Field("deck", "Deck repair", "hours per metre", takes=Takes.FIGURE),
    Field("underlay", "Underlay", "hours per m²", takes=Takes.FIGURE),
    Field("edges", "Edges", "hours per metre", takes=Takes.FIGURE),
    Field("courses", "Courses", "hours per m²", takes=Takes.FIGURE),
    Field("felt", "Felt", "hours per m²", takes=Takes.FIGURE),
    Field("ridges", "Ridges", "hours per metre", takes=Takes.FIGURE),
    Field("clearing", "Clearing up", "hours per m²", takes=Takes.FIGURE),
)
NAILING = (
    Field("shingle_nail", "Shingle nails", "mm long", section="Your nails", takes=Takes.COUNT),
    Field("felt_nail", "Felt nails", "mm long", takes=Takes.COUNT),
    Field("edge_centres", "Nails at edges, every", "mm", takes=Takes.COUNT),
)
LIMITS = (
    Field("least_c", "Air temperature above", "°C", section="Weather limits", takes=Takes.FIGURE),
    Field("lay_mph", "Lay only if wind under", "mph (average)", takes=Takes.COUNT),
    Field("never_mph", "Off the roof over", "mph (average)", takes=Takes.COUNT),
    Field("gust_factor", "Gusts up to", "times the average", takes=Takes.FIGURE),
    Field(
        "underlay_rest_min",
        "Let underlay relax for",
        "minutes",
        takes=Takes.COUNT,
    ),
    Field("drying_min", "Let a wet deck dry for", "minutes", takes=Takes.COUNT),
)
DAYS = (
    Field(
        "hours_a_day",
        "Hours a day",
        "hours",
        section="Days",
        takes=Takes.QUARTERS,
    ),
    Field("work_from", "On a roof from", "→", example="7.30", takes=Takes.FIGURE),
    Field("work_until", "On a roof until", "→", example="18:00", takes=Takes.FIGURE),
    Field("working_days", "Working days", example="Mon, Tue, Wed, Thu, Fri"),
    Field("quote_days", "Quote valid for", "days", takes=Takes.COUNT),
    Field("guarantee_years", "Guarantee", "years", hint="empty if none", takes=Takes.COUNT),
    Field("nation", "Bank holidays for", choices=tuple(NATIONS)),
)
VAN = (
    Field(
        "payload_kg",
        "Payload",
        "kg",
        hint="what the van may carry",
        section="Van and sacks",
        takes=Takes.COUNT,
    ),
    Field("sack_kg", "A rubble sack", "kg", takes=Takes.COUNT),
)
BACKUPS = (
    Field(
        "backup_folder",
        "Second folder",
        hint="on a stick, or synced; must be there already",
        section="Backups",
    ),
)
FIELDS = (*WHO, *MONEY, *LOOK, *PAPERS, *RATES, *LABOUR, *NAILING, *LIMITS, *VAN, *BACKUPS, *DAYS)
