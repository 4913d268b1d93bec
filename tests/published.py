"""Published lengths that tests build rooms from: each typed here once, and as it was printed.

``mm(id)`` is the only way to a figure, so that a room and the sum beside it cannot both be
wrong in the same way. The second column is what the source prints; the two are held against
one another, and against the product's own table where it has the row. Ids are those of the
reference table; "from memory" rows were not read again.
"""

# id: mm, as printed, where.
ROWS = {
    "bed-side-access": (559, "22 in", "HUD Manual of Acceptable Practices vol. 4, 1973"),
    "bed-least-used-side": (305, "12 in", "HUD Manual of Acceptable Practices vol. 4, 1973"),
    "bed-dressing-zone": (1067, "42 in", "HUD Manual of Acceptable Practices vol. 4, 1973"),
    "bedroom-storage-front": (914, "36 in", "HUD Manual of Acceptable Practices vol. 4, 1973"),
    "bed-around-min": (600, "600 mm", "Neufert"),
    "bed-around-pref": (750, "750 mm", "Neufert"),
    "din-bed-side-1": (1200, "120 cm", "DIN 18040-2"),
    "din-bed-side-2": (900, "90 cm", "DIN 18040-2"),
    "din-bed-side-1-wc": (1500, "150 cm", "DIN 18040-2 (R)"),
    "din-bed-side-2-wc": (1200, "120 cm", "DIN 18040-2 (R)"),
    "din-turn-wc": (1500, "150 cm", "DIN 18040-2 (R)"),
    "din-double-room-width": (4100, "410 cm", "DIN 18040-2, with a bed of 2.00 m"),
    "din-furniture-front": (900, "90 cm", "DIN 18040-2"),
    "din-furniture-front-wc": (1500, "150 cm", "DIN 18040-2 (R)"),
    "adm2-bed-principal": (750, "750 mm", "England Approved Document M vol. 1, from memory"),
    "adm2-bed-double": (750, "750 mm", "England Approved Document M vol. 1, from memory"),
    "adm2-bed-single": (750, "750 mm", "England Approved Document M vol. 1, from memory"),
    "adm3-bed-zone": (1000, "1000 mm", "England Approved Document M vol. 1, from memory"),
    "dine-access": (813, "32 in", "HUD Manual of Acceptable Practices vol. 4, 1973"),
    "dine-nkba-edge": (914, "36 in", "NKBA kitchen planning guidelines"),
    "dine-nkba-walk": (1118, "44 in", "NKBA kitchen planning guidelines"),
    "desk-use": (762, "30 in", "HUD Manual of Acceptable Practices vol. 4, 1973"),
    "sit-facing": (1524, "60 in", "HUD Manual of Acceptable Practices vol. 4, 1973"),
    "walk-main": (914, "36 in", "HUD Manual of Acceptable Practices vol. 4, 1973"),
    "ada-route": (915, "915 mm", "2010 ADA Standards 403.5"),
    "wc-width": (900, "900 mm", "Metric Data 04"),
    "tv-seat-min": (1524, "60 in", "HUD Manual of Acceptable Practices vol. 4, 1973"),
    # 1.63 times the diagonal: the page's own example is a screen of 50 in.
    "tv-smpte-mult": (2070, "81.5 in", "screen distance by angle"),
}
UNITS = {"mm": 1.0, "cm": 10.0, "in": 25.4}


def mm(id_):
    """The published length in mm."""
    return ROWS[id_][0]


def printed_mm(id_):
    """The same, worked out from what the source prints."""
    number, unit = ROWS[id_][1].split()
    return round(float(number) * UNITS[unit])
