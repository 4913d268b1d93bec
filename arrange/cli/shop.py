"""``arrange shop``: the list to shop with for the best arrangement of a scenario."""

from __future__ import annotations

from pathlib import Path

import click

from arrange.budget import Budget
from arrange.cli.common import (
    EXIT,
    MARK,
    Delivery,
    format_option,
    json_option,
    out_option,
    scenario_from,
    seed_option,
    time_option,
    watching,
)

TABLE, DATA = "shop.csv", "shop.json"


@click.command(epilog="Example: arrange shop bedroom.toml")
@click.argument("file", metavar="FILE")
@out_option
@time_option(40.0, "How long to look at most, for the plan and for the largest sizes.")
@seed_option
@format_option
@json_option("shop.json", "list")
@click.pass_context
def shop(
    ctx: click.Context,
    file: str,
    out: Path | None,
    seconds: float,
    seed: int,
    suffix: str,
    as_json: bool,
) -> None:
    """List what to get for FILE, in the order of shopping.

    What you have comes first, then what to look out for second-hand, to make over and to buy
    new: each with the largest size with which the room still works, its price, and a running total
    against the budget. Then what else the room takes: paint, curtains, light and the like.
    Writes the list as one page with the plan (shop), for a spreadsheet (shop.csv), and every
    number (shop.json). Nothing in FILE is changed.
    """
    clock = Budget(seconds)
    scenario = scenario_from(file)
    to = Delivery(file, out, suffix, as_json=as_json)
    to.look()
    to.load()
    from arrange.draw.shop import shopping_sheet  # noqa: PLC0415
    from arrange.output.records import shop_data  # noqa: PLC0415
    from arrange.output.spreadsheets import shop_csv  # noqa: PLC0415
    from arrange.shop.listing import words  # noqa: PLC0415
    from arrange.shop.shopping import shop as make_list  # noqa: PLC0415

    with watching("looking for the best arrangement") as watch:
        found = make_list(
            scenario, seconds=to.time(clock, 1), seed=seed, say=watch.say, stop=watch.stop
        )
        sheets = {"shop": lambda: shopping_sheet(found)} if found.entries else {}
        files = to.write(
            sheets,
            (TABLE, lambda _: f"{MARK}{shop_csv(found)}"),
            (DATA, lambda names: shop_data(found, names[:-1])),
        )
    to.tell(lambda: shop_data(found, files[:-1]), lambda: words(found, to.path, files))
    ctx.exit(EXIT[found.result.outcome])
