"""The beginning of a scenario file, as text: a room with one door. Lengths in cm."""


def room_file(across, up, *, wall="C", from_left=20, width=80, opens="in"):
    """A room ``across`` by ``up`` with a door; pieces and wishes can be written after it."""
    room = f"\n[room]\nsize = [{across}, {up}]\n"
    door = f'[[door]]\nwall = "{wall}"\nfrom_left = {from_left}\nwidth = {width}\n'
    return room + door + ("" if opens == "in" else f'opens = "{opens}"\n')
