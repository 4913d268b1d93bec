"""``arrange shop``: the list to shop with, for the best arrangement or a plan; what was bought."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from arrange.budget import Budget
from arrange.cli.bought import bought_options, check_bought, purchase
from arrange.cli.common import (
    EXIT,
    MARK,
    STDIN,
    Delivery,
    Names,
    any_plan,
    format_option,
    json_option,
    out_option,
    scenario_from,
    seed_option,
    time_option,
    watching,
)

if TYPE_CHECKING:
    from arrange.shop.listing import ShoppingList

TABLE, DATA = "shop.csv", "shop.json"


@click.command(
    epilog='Example: arrange shop bedroom.toml --bought "chest of drawers=120x50, 60.00"'
)
@click.argument("file", metavar="FILE")
@bought_options
@out_option("<name of FILE>-plans, or the folder of PLAN")
@time_option(40.0, "How long to look at most, for the plan and for the largest sizes.")
@seed_option
@format_option
@json_option("shop.json", "list")
@click.pass_context
def shop(
    ctx: click.Context,
    file: str,
    bought: tuple[str, ...],
    new_file: Path | None,
    in_place: bool,
    out: Path | None,
    seconds: float,
    seed: int,
    suffix: str,
    as_json: bool,
) -> None:
    """List what to get for FILE, in the order of shopping.

    FILE is a scenario, or a PLAN: a folder or a file that arrange suggest, move or choose wrote,
    with #2 for its second plan. What you have comes first, then what to look out for
    second-hand, to make over and to buy new: each with the largest size at which the room still
    works and the plan still looks right, its price, and a running total against the budget. Then
    what else the room takes: paint, curtains, light and the like. Writes the list as one page with
    the plan (shop), for a spreadsheet (shop.csv), and every number (shop.json).

    With --bought the purchase is recorded in a copy of FILE, and the rest is arranged again
    around it. FILE itself is changed only with --in-place.
    """
    clock = Budget(seconds)
    planned = file != STDIN and not file.lower().endswith(".toml")
    if bought and planned:
        raise click.UsageError("--bought needs the scenario file (.toml), not a plan of it")
    check_bought(file, bought, new_file, in_place=in_place)
    plan = any_plan(file) if planned else None
    come = purchase(file, bought, new_file, in_place=in_place) if bought else None
    if plan is not None:
        scenario, out = plan.scenario, out or plan.path.parent
    elif come is not None:
        scenario, file = come.after, come.file
    else:
        scenario = scenario_from(file)
    to = Delivery(file, out, suffix, as_json=as_json)
    to.look()
    if come is not None:
        come.write()
    to.load()
    from arrange.shop import shopping  # noqa: PLC0415

    with watching("looking for the best arrangement") as watch:
        left = to.time(clock, 1)
        if plan is not None:
            budget = Budget(left, watch.stop)
            whole = plan.chosen_from
            found = shopping.planned(
                scenario,
                plan.arrangement,
                budget,
                choice=plan.choice,
                needs=None if whole is None else whole.needs,
                seed=seed,
                say=watch.say,
            )
            found = replace(found, plan=plan.words)
        else:
            names = come.names if come is not None else ()
            found = shopping.shop(
                scenario, bought=names, seconds=left, seed=seed, say=watch.say, stop=watch.stop
            )
            found = replace(found, bought=names, recorded=file if come is not None else "")
        watch.say("drawing the list")
        files = _written(to, found)
    from arrange.output.records import shop_data  # noqa: PLC0415
    from arrange.shop.listing import words  # noqa: PLC0415

    to.tell(lambda: shop_data(found, files[:-1]), lambda: words(found, to.path, files))
    ctx.exit(EXIT[found.result.outcome])


def _written(to: Delivery, found: ShoppingList) -> Names:
    """Write the page, the table and every number."""
    from arrange.draw.shop import shopping_sheet  # noqa: PLC0415
    from arrange.output.records import shop_data  # noqa: PLC0415
    from arrange.output.spreadsheets import shop_csv  # noqa: PLC0415

    return to.write(
        {"shop": lambda: shopping_sheet(found)} if found.entries else {},
        (TABLE, lambda _: f"{MARK}{shop_csv(found)}"),
        (DATA, lambda names: shop_data(found, names[:-1])),
    )
