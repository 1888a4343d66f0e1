"""Where the trader works from, near enough for the sun: by the first letters of the postcode.

A postcode area is named after a town, and its position is that town's. Most areas are so small
that the sun rises within two or three minutes for all of them; Skye has it eight minutes later
than Inverness, whose letters it carries.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from domain.postcode import postcode_area


class Place(NamedTuple):
    """A position on the map, in degrees."""

    latitude: float
    longitude: float
    """West is negative."""
    town: str


_TOWNS = """
AB Aberdeen 57.15 -2.10 | AL St Albans 51.75 -0.33 | B Birmingham 52.48 -1.90
BA Bath 51.38 -2.36 | BB Blackburn 53.75 -2.48 | BD Bradford 53.79 -1.75
BH Bournemouth 50.72 -1.88 | BL Bolton 53.58 -2.43 | BN Brighton 50.83 -0.14
BR Bromley 51.41 0.02 | BS Bristol 51.45 -2.59 | BT Belfast 54.60 -5.93
CA Carlisle 54.89 -2.94 | CB Cambridge 52.21 0.12 | CF Cardiff 51.48 -3.18
CH Chester 53.19 -2.89 | CM Chelmsford 51.74 0.47 | CO Colchester 51.89 0.90
CR Croydon 51.37 -0.10 | CT Canterbury 51.28 1.08 | CV Coventry 52.41 -1.51
CW Crewe 53.10 -2.44 | DA Dartford 51.45 0.22 | DD Dundee 56.46 -2.97
DE Derby 52.92 -1.48 | DG Dumfries 55.07 -3.61 | DH Durham 54.78 -1.58
DL Darlington 54.53 -1.55 | DN Doncaster 53.52 -1.13 | DT Dorchester 50.71 -2.44
DY Dudley 52.51 -2.08 | E London 51.54 -0.03 | EC London 51.52 -0.10
EH Edinburgh 55.95 -3.19 | EN Enfield 51.65 -0.08 | EX Exeter 50.72 -3.53
FK Falkirk 56.00 -3.78 | FY Blackpool 53.82 -3.05 | G Glasgow 55.86 -4.25
GL Gloucester 51.86 -2.24 | GU Guildford 51.24 -0.57 | GY Guernsey 49.46 -2.54
HA Harrow 51.58 -0.33 | HD Huddersfield 53.65 -1.78 | HG Harrogate 53.99 -1.54
HP Hemel Hempstead 51.75 -0.47 | HR Hereford 52.06 -2.72 | HS Stornoway 58.21 -6.39
HU Hull 53.74 -0.34 | HX Halifax 53.72 -1.86 | IG Ilford 51.56 0.07
IM Douglas 54.15 -4.48 | IP Ipswich 52.06 1.16 | IV Inverness 57.48 -4.22
JE Jersey 49.19 -2.11 | KA Kilmarnock 55.61 -4.50 | KT Kingston upon Thames 51.41 -0.30
KW Kirkwall 58.98 -2.96 | KY Kirkcaldy 56.11 -3.16 | L Liverpool 53.41 -2.98
LA Lancaster 54.05 -2.80 | LD Llandrindod Wells 52.24 -3.38 | LE Leicester 52.64 -1.13
LL Llandudno 53.32 -3.83 | LN Lincoln 53.23 -0.54 | LS Leeds 53.80 -1.55
LU Luton 51.88 -0.42 | M Manchester 53.48 -2.24 | ME Rochester 51.39 0.50
MK Milton Keynes 52.04 -0.76 | ML Motherwell 55.79 -3.99 | N London 51.57 -0.11
NE Newcastle upon Tyne 54.97 -1.61 | NG Nottingham 52.95 -1.15 | NN Northampton 52.24 -0.90
NP Newport 51.59 -3.00 | NR Norwich 52.63 1.30 | NW London 51.55 -0.19
OL Oldham 53.54 -2.11 | OX Oxford 51.75 -1.26 | PA Paisley 55.85 -4.42
PE Peterborough 52.57 -0.24 | PH Perth 56.40 -3.43 | PL Plymouth 50.37 -4.14
PO Portsmouth 50.80 -1.09 | PR Preston 53.76 -2.70 | RG Reading 51.45 -0.97
RH Redhill 51.24 -0.17 | RM Romford 51.58 0.18 | S Sheffield 53.38 -1.47
SA Swansea 51.62 -3.94 | SE London 51.47 -0.06 | SG Stevenage 51.90 -0.20
SK Stockport 53.41 -2.16 | SL Slough 51.51 -0.59 | SM Sutton 51.36 -0.19
SN Swindon 51.56 -1.78 | SO Southampton 50.90 -1.40 | SP Salisbury 51.07 -1.79
SR Sunderland 54.91 -1.38 | SS Southend-on-Sea 51.54 0.71 | ST Stoke-on-Trent 53.00 -2.18
SW London 51.47 -0.16 | SY Shrewsbury 52.71 -2.75 | TA Taunton 51.02 -3.10
TD Galashiels 55.62 -2.81 | TF Telford 52.68 -2.45 | TN Tonbridge 51.20 0.27
TQ Torquay 50.46 -3.53 | TR Truro 50.26 -5.05 | TS Middlesbrough 54.57 -1.23
TW Twickenham 51.45 -0.34 | UB Southall 51.51 -0.38 | W London 51.51 -0.19
WA Warrington 53.39 -2.59 | WC London 51.52 -0.12 | WD Watford 51.66 -0.40
WF Wakefield 53.68 -1.50 | WN Wigan 53.55 -2.63 | WR Worcester 52.19 -2.22
WS Walsall 52.58 -1.98 | WV Wolverhampton 52.59 -2.13 | YO York 53.96 -1.08
ZE Lerwick 60.15 -1.14
"""
"""The postcode areas and their towns, latitude and longitude to a hundredth of a degree: from
memory; those from AB to DE held against the outward codes of a public list (postcode-outcodes.csv),
and the towns that the library for the sun knows against it, by a test."""

_OF_NATION: Mapping[str, Place] = MappingProxyType(
    {
        "England": Place(52.9, -1.5, ""),
        "Wales": Place(52.3, -3.7, ""),
        "Scotland": Place(56.8, -4.2, ""),
        "Northern Ireland": Place(54.6, -6.7, ""),
    }
)
"""The middle of each, where no postcode is known."""


def _read(row: str) -> tuple[str, Place]:
    area, *town, latitude, longitude = row.split()
    return area, Place(float(latitude), float(longitude), " ".join(town))


PLACES: Mapping[str, Place] = MappingProxyType(
    dict(_read(row) for line in _TOWNS.split("\n") for row in line.split("|") if row.strip())
)
"""The town of each postcode area."""


def place_of(address: str, nation: str) -> Place:
    """Return where an address lies, by its postcode; without one, the middle of the nation.

    A place of the nation has no town. ``nation`` is one of the four of a trader's details.
    """
    return PLACES.get(postcode_area(address)) or _OF_NATION[nation]
