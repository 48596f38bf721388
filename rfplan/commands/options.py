# SPDX-License-Identifier: Apache-2.0
"""The words of the command line: every command with its arguments and options."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from typing import TypeAlias

from rfplan.commands.parsing import Parser, one_of
from rfplan.reports.filing_order import FILING_ORDER

PLAN_HELP = "plan file, or the folder that holds plan.yaml"
SIDE_HELP = "plan, PLAN@found, PLAN@design, PLAN@built, PLAN@rel:LETTER, or a package"
STATES = ("found", "design", "built")
UNITS = ("in", "mm")
RUNGS = ("default", "transparent", "best", "quick", "exact")
FORMATS = ("text", "md", "csv", "json", "html")
DOCUMENTS = ("pdf", "xlsx")
PAPERS = ("a4", "letter")
THEMES = ("dark", "light")
GLYPHS = ("full", "blocks", "ascii")

_Commands: TypeAlias = "argparse._SubParsersAction[Parser]"


def _plan_options(
    parser: argparse.ArgumentParser,
    date: str = "date on sheets; default the plan's",
    state: str = "design",
) -> None:
    states = one_of("state", STATES)
    parser.add_argument(
        "--state", **states, default=state, help=f"{', '.join(STATES)}; default {state}"
    )
    parser.add_argument("--date", metavar="YYYY-MM-DD", help=date)
    _judging_options(parser)


def _judging_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--serial", metavar="N", help="serial number; default that of the plan")
    _catalog_option(parser)
    units = one_of("unit", UNITS)
    parser.add_argument("--units", **units, default="in", help="lengths on sheets: in, mm")


def _catalog_option(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--catalog", metavar="DIR", help="catalogue laid over the shipped one")


def _format_option(
    parser: argparse.ArgumentParser, formats: Sequence[str] = FORMATS, more: str = ""
) -> None:
    known = one_of("format", formats)
    words = f"{', '.join(formats)}{more}"
    parser.add_argument("--format", **known, help=f"{words}; default by the ending of -o")
    parser.set_defaults(formats=tuple(formats))


def _output_options(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("-o", "--output", metavar="FILE", help="write to FILE, not to the screen")
    parser.add_argument("--force", action="store_true", help="let -o replace a file that is there")


def _check(commands: _Commands) -> None:
    check = commands.add_parser("check", help="judge a plan and say what does not meet its limits")
    check.add_argument("plan", metavar="PLAN", help=PLAN_HELP)
    _plan_options(check)
    answer = check.add_mutually_exclusive_group()
    answer.add_argument("--json", action="store_true", help="one JSON object, for programs")
    answer.add_argument("--why", metavar="ID", help="every number behind a path or a finding")
    check.add_argument("--cross-check", action="store_true", help="compare with scikit-rf")
    check.add_argument("--strict", action="store_true", help="waived findings give exit code 1 too")
    _output_options(check)


def _sheet(commands: _Commands) -> None:
    sheet = commands.add_parser("sheet", help="print or write sheets of a plan")
    told = f"{PLAN_HELP}; PLAN@rel:LETTER or a package, which say themselves how they were judged"
    sheet.add_argument("plan", metavar="PLAN", help=told)
    names = f"{', '.join(FILING_ORDER)}; or all, which is all but the summary; without one the "
    names += "screen shows this list, and -o or another format than text gets all"
    sheet.add_argument("sheets", metavar="SHEET", nargs="*", help=names)
    _format_option(sheet, (*FORMATS, *DOCUMENTS), "; the last two need -o")
    rungs = one_of("rung", RUNGS)
    about = f"isolation and interference by {', '.join(RUNGS[1:])}, for comparison; exact is slow"
    sheet.add_argument("--rung", **rungs, default=RUNGS[0], help=about)
    sheet.add_argument("--paper", **one_of("paper", PAPERS), default="a4", help=", ".join(PAPERS))
    _plan_options(sheet)
    _output_options(sheet)
    sheet.set_defaults(list="sheets")


def _files(commands: _Commands) -> None:
    for name, text, ending in (
        ("drawing", "the placement drawing to scale, as SVG", "svg"),
        ("package", "one file with a judged plan and all it rests on; needs -o", "zip"),
    ):
        file = commands.add_parser(name, help=text)
        file.add_argument("plan", metavar="PLAN", help=PLAN_HELP)
        _plan_options(file)
        _output_options(file)
        file.set_defaults(ending=ending)


def _compare(commands: _Commands) -> None:
    compare = commands.add_parser("compare", help="what changed, verdicts first")
    compare.add_argument("before", metavar="A", help=SIDE_HELP)
    compare.add_argument("after", metavar="B", help="the other one")
    _format_option(compare)
    _judging_options(compare)
    _output_options(compare)


def _verify(commands: _Commands) -> None:
    verify = commands.add_parser("verify", help="compute a package anew and say what differs")
    verify.add_argument("package", metavar="FILE", help="written by package or release")
    _format_option(verify)
    _output_options(verify)


def _release(commands: _Commands) -> None:
    release = commands.add_parser("release", help="file a plan under the letter of its revision")
    release.add_argument("plan", metavar="PLAN", help=PLAN_HELP)
    listing = "say which revisions are released, which superseded"
    release.add_argument("--list", action="store_true", dest="list_released", help=listing)
    _plan_options(release)
    release.set_defaults(output=None, force=False)


def _signing(commands: _Commands) -> None:
    waive = commands.add_parser("waive", help="accept a finding by name and with a reason")
    waive.add_argument("plan", metavar="PLAN", help=PLAN_HELP)
    waive.add_argument(
        "finding", metavar="FINDING", help="as told, such as RF501/com1+gnss1/design"
    )
    waive.add_argument(
        "--reason", metavar="TEXT", help="why it is acceptable, 20 characters or more"
    )
    waive.add_argument("--role", metavar="ROLE", help="of who signs")
    waive.add_argument(
        "--data", metavar="TEXT", help="document or approved data that stands for it"
    )
    accept = commands.add_parser(
        "accept", help="accept open points to confirm by name, as they are"
    )
    accept.add_argument("plan", metavar="PLAN", help=PLAN_HELP)
    points = "as told, such as rg_400_u.loss"
    accept.add_argument("points", metavar="POINT", nargs="+", help=points)
    for command in (waive, accept):
        command.add_argument("--by", metavar="NAME", required=True, help="who signs")
        step = "done to make up for it: a step of the ground check"
        command.add_argument("--check", metavar="TEXT", help=step)
        _plan_options(command, "of the signature; default today")
        command.set_defaults(output=None, force=False)
    accept.set_defaults(list="points")


def _record(commands: _Commands) -> None:
    record = commands.add_parser("record", help="write a reading of a path into the plan")
    record.add_argument("plan", metavar="PLAN", help=PLAN_HELP)
    record.add_argument("path", metavar="PATH", help="the path that was measured")
    for option, metavar, text in (
        ("--at", "FREQUENCY", "such as '1575.42 MHz'"),
        ("--loss", "LOSS", "plug to plug, such as '3.02 dB'"),
        ("--vswr", "VSWR", "at the plug of the unit, antenna on, such as 1.35"),
        ("--temperature", "DEGREES", "of the line, such as '17 degC'"),
        ("--uncertainty", "LOSS", "of the loss, such as '0.15 dB'"),
        ("--instrument", "TEXT", "with what, and until when it is calibrated"),
        ("--by", "NAME", "who measured"),
    ):
        record.add_argument(option, metavar=metavar, required=option == "--at", help=text)
    _plan_options(record, "of the reading; default today", state="built")
    record.set_defaults(output=None, force=False)


def _sweep(commands: _Commands) -> None:
    sweep = commands.add_parser("sweep", help="what a measured sweep says; disconnect DC first")
    sweep.add_argument("plan", metavar="PLAN", help=PLAN_HELP)
    sweep.add_argument("path", metavar="PATH", help="the path that was swept")
    through = "one port with the antenna on (.s1p), or both ends of the line (.s2p)"
    sweep.add_argument("file", metavar="FILE", help=f"Touchstone version 1: {through}")
    sweep.add_argument("--open", metavar="FILE", help="one-port sweep, far end open")
    sweep.add_argument("--short", metavar="FILE", help="one-port sweep, far end shorted")
    swapped = "another path and its sweep: are the labels of the two swapped?"
    sweep.add_argument("--swap-with", nargs=2, metavar=("PATH", "FILE"), help=swapped)
    degrees = "of the line when it was swept, such as '17 degC'; default 20 degC"
    sweep.add_argument("--temperature", metavar="DEGREES", help=degrees)
    _format_option(sweep)
    _plan_options(sweep)
    _output_options(sweep)


def _listings(commands: _Commands) -> None:
    for name, text in (
        ("rules", "list and explain the rules"),
        ("validation", "the published checks: source, expected, computed"),
        ("formulas", "every cited formula with units and source"),
    ):
        listing = commands.add_parser(name, help=text)
        if name == "rules":
            listing.add_argument("rules", metavar="RULE", nargs="*", help="RF501; default all")
        listing.add_argument("--json", action="store_true", help="one JSON object, for programs")
        _output_options(listing)


def _catalog(commands: _Commands) -> None:
    text = "list the catalogue; check FILE ..., fit FREQUENCY=LOSS ..."
    catalog = commands.add_parser("catalog", help=text)
    action = one_of("action", ("list", "check", "fit"))
    catalog.add_argument(
        "action",
        **action,
        nargs="?",
        default="list",
        help="list; check FILE ...: do cable files hang together; "
        "fit FREQUENCY=LOSS ...: fit a reel's table, such as 50MHz=10.8dB/100m 450MHz=38.5dB/100m",
    )
    catalog.add_argument("items", metavar="ITEM", nargs="*", help="files, or points of a table")
    _catalog_option(catalog)
    _output_options(catalog)
    catalog.set_defaults(list="items")


def _demo(commands: _Commands) -> None:
    demo = commands.add_parser("demo", help="copy a demo aircraft to a new folder and judge it")
    demo.add_argument("name", metavar="NAME", nargs="?", help="which aircraft; default the first")
    demo.add_argument("--to", metavar="DIR", help="folder to make; default demo_NAME here")
    demo.set_defaults(output=None, force=False)


def _open(commands: _Commands) -> None:
    workspace = commands.add_parser("open", help="work on a plan in this terminal")
    workspace.add_argument("plan", metavar="PLAN", nargs="?", help=PLAN_HELP)
    _plan_options(workspace)
    workspace.add_argument("--theme", **one_of("theme", THEMES))
    workspace.add_argument("--glyphs", **one_of("glyphs", GLYPHS), help="default by the terminal")
    workspace.add_argument("--screenshot", metavar="NAME", help="write NAME.txt and NAME.svg")
    workspace.add_argument("--size", metavar="CxR", default="120x40", help="of the screenshot")
    workspace.add_argument("--keys", default="", help="pressed before it, such as 'm right'")
    workspace.set_defaults(output=None, force=False)


_Adder = Callable[[_Commands], None]
_PLAN_COMMANDS: tuple[_Adder, ...] = (
    _open,
    _check,
    _sheet,
    _signing,
    _record,
    _files,
    _release,
    _verify,
    _compare,
)
_OTHER_COMMANDS: tuple[_Adder, ...] = (_sweep, _listings, _catalog, _demo)


def add_commands(commands: _Commands) -> None:
    """Add every command, those on a plan first."""
    for add in (*_PLAN_COMMANDS, *_OTHER_COMMANDS):
        add(commands)
