# SPDX-License-Identifier: Apache-2.0
"""rfplan check: judge a plan and say what does not meet its limits."""

from __future__ import annotations

from argparse import Namespace

from rfplan.commands.choices import not_one_of
from rfplan.commands.opening import Judged, judge, refuse
from rfplan.commands.output import complain, deliver, text_width
from rfplan.files.problems import ProblemsError
from rfplan.reports.contract import check_json, failed_json
from rfplan.reports.formats import text
from rfplan.reports.json_text import Json, json_text
from rfplan.reports.outcome import NOT_JUDGED, exit_code
from rfplan.reports.sheet import Sheet
from rfplan.reports.sheets import summary


def run(options: Namespace) -> int:
    """Judge the plan, print what was asked for, return the exit code of the verdict."""
    try:
        judged = judge(options.plan, options)
    except ProblemsError as error:
        if options.json:
            return deliver(json_text(failed_json(error.problems)), options, NOT_JUDGED)
        return refuse(error)
    code = exit_code(judged.assessment, strict=options.strict)
    if options.json:
        return deliver(json_text(_answer(judged, options)), options, code)
    sheet = _shown(judged, options)
    if sheet is None:
        return NOT_JUDGED
    shown = text.write(sheet, width=text_width(options))
    if options.cross_check:
        shown = f"{shown}\n{_cross_check_line(_cross_check(judged))}\n"
    return deliver(shown, options, code)


def _answer(judged: Judged, options: Namespace) -> Json:
    answer = check_json(judged.assessment, judged.context, strict=options.strict)
    return {**answer, "cross_check": _cross_check(judged)} if options.cross_check else answer


def _shown(judged: Judged, options: Namespace) -> Sheet | None:
    """Return the summary, or what is behind an id; None, and words, where there is no such id."""
    if not options.why:
        return summary.build(judged.assessment, judged.context)
    from rfplan.reports.why import why

    sheet = why(judged.assessment, judged.context, options.why)
    if sheet is None:
        assessment = judged.assessment
        known = [path.id for path in assessment.paths]
        known += [finding.id for finding in assessment.findings]
        complain(f"rfplan: {not_one_of('path or finding', options.why, known)}")
    return sheet


def _cross_check(judged: Judged) -> Json:
    """Return how far the chains are from those of an independent library."""
    from importlib.metadata import version

    from rfplan.analysis.cross_check import cross_check
    from rfplan.analysis.facts import gather

    result = cross_check(gather(judged.loaded.plan, judged.catalog, judged.rulebook))
    return {
        "library": f"scikit-rf {version('scikit-rf')}",
        "chains": result.chains,
        "frequencies": result.frequencies,
        "largest_db": result.largest_db,
    }


def _cross_check_line(result: Json) -> str:
    return (
        f"cross-check: {result['library']}, {result['chains']} chains at "
        f"{result['frequencies']} frequencies, largest difference {result['largest_db']:.1e} dB"
    )
