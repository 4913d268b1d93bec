"""``arrange board``: one page for a plan, with its colours, pictures and words."""

from __future__ import annotations

from pathlib import Path

import click

from arrange.cli.common import Delivery, any_plan, format_option, json_option, out_option


@click.command(epilog="Example: arrange board bedroom-plans#2")
@click.argument("plan", metavar="PLAN")
@out_option("the folder of PLAN")
@format_option
@json_option("board.json", "words")
def board(plan: str, out: Path | None, suffix: str, as_json: bool) -> None:
    """Put a PLAN and its colours on one page, a board.

    PLAN is a folder or a file that arrange suggest, move or choose wrote, with #2 for its second
    plan. Colours of pieces, textiles and paint are given in its scenario, as hex, Lab, or pointed
    at in a photo (scenarios/README.md); each is ranked by how it sits with the piece that leads,
    paint last. The words for how the room should feel go with it. Writes one page (board) and every
    number (board.json).
    """
    planned = any_plan(plan)
    to = Delivery(plan, out or planned.path.parent, suffix, as_json=as_json)
    to.look()
    from arrange.draw.colours import board_sheet  # noqa: PLC0415
    from arrange.output.board import board_data  # noqa: PLC0415
    from arrange.shop.board import board as made  # noqa: PLC0415
    from arrange.shop.board import words  # noqa: PLC0415

    scenario = planned.scenario
    whole = planned.chosen_from
    scheme = scenario.scheme if whole is None else whole.whole.scheme
    found = made(scenario, planned.arrangement, scheme, planned.words)
    name = "board" if planned.rank == 1 else f"board-{planned.rank}"
    files = to.write(
        {name: lambda: board_sheet(found)},
        (f"{name}.json", lambda names: board_data(found, names[:-1])),
    )
    to.tell(lambda: board_data(found, files[:-1]), lambda: words(found, to.path, files))
