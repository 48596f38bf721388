# SPDX-License-Identifier: Apache-2.0
"""The selected antenna: where it stands, the loss of its path, its distances to all others."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rfplan.model.assessment import AntennaPlace, Assessment, PathAssessment, SpacingFact
from rfplan.model.rulebook import Strictness
from rfplan.reports.loss_line import governing, nearer_margin, window_text
from rfplan.reports.outcome import loss_word
from rfplan.reports.power_line import power_line
from rfplan.reports.sheet import Cell
from rfplan.reports.wording import said
from rfplan.tui.panes import Item, Pane, blank, heading, item
from rfplan.tui.present.loss import window_bar
from rfplan.tui.present.paths import full_window, short_margin
from rfplan.tui.present.tags import Type, length_text, sign, tag, word
from rfplan.tui.runs import Row, Run, width, words_cut
from rfplan.tui.tokens import Token, token_of

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Standing:
    """An antenna as it is looked at: the assessment shown, and where it stood before a move."""

    assessment: Assessment
    antenna: str
    path: str | None = None
    was: AntennaPlace | None = None
    title: str = ""

    @property
    def place(self) -> AntennaPlace | None:
        """Where it stands now."""
        places = self.assessment.antennas
        return next((place for place in places if place.id == self.antenna), None)

    @property
    def chosen_path(self) -> PathAssessment | None:
        """The selected path if it ends here, else the worst one that does."""
        paths = [path for path in self.assessment.paths if path.antenna == self.antenna]
        return next((path for path in paths if path.id == self.path), paths[0] if paths else None)


def antenna_pane(standing: Standing, columns: int, type: Type) -> Pane:
    """Return place, loss and distances of the selected antenna."""
    place = standing.place
    if place is None:
        return Pane("antenna", heading("No antenna selected"), [blank()])
    title = heading(place.id, "moving" if standing.was else "")
    items = [item(row) for row in _place_rows(standing, place, columns, type)]
    items += [blank(), *_loss_items(standing, columns, type)]
    items += [blank(), *distance_items(standing.assessment, place.id, columns, type)]
    return Pane("antenna", title, items)


def _place_rows(standing: Standing, place: AntennaPlace, columns: int, type: Type) -> Iterator[Row]:
    told = f"{standing.title or place.type}"
    yield [Run(words_cut(told, columns, type.ellipsis), Token.TEXT)]
    yield _coordinates("", place, type)
    if standing.was is not None:
        yield _coordinates("was ", standing.was, type)
    if place.zones:
        zones = words_cut(f"in {', '.join(place.zones)}", columns, type.ellipsis)
        yield [Run(zones, Token.DIM)]


def butt_line(bl_m: float, type: Type) -> str:
    """Return 'L13.0', 'R4.0' or '0.0'."""
    shown = length_text(abs(bl_m), type.unit)
    if float(shown) == 0.0:
        return shown
    return f"{'L' if bl_m < 0.0 else 'R'}{shown}"


def _coordinates(prefix: str, place: AntennaPlace, type: Type) -> Row:
    fs_m, bl_m, wl_m = place.point_m
    ink = Token.DIM if prefix else Token.BOLD
    row = [Run(prefix, Token.DIM)] if prefix else []
    pairs = (
        ("FS ", length_text(fs_m, type.unit)),
        ("BL ", butt_line(bl_m, type)),
        ("WL ", length_text(wl_m, type.unit)),
    )
    for label, number in pairs:
        row += [Run("" if prefix else label, Token.FAINT), Run(number, ink), Run("  ")]
    return [*row, Run(place.surface.replace("_", " "), Token.DIM if prefix else Token.TEXT)]


def _loss_items(standing: Standing, columns: int, type: Type) -> Iterator[Item]:
    """The loss of the path between both limits, and its verdict, which is that of the loss."""
    path = standing.chosen_path
    if path is None:
        yield item([Run("No path ends here.", Token.DIM)])
        return
    band, verdict = governing(path), loss_word(path)
    window = f"{full_window(band)} dB"
    margin = Run(type.signed(nearer_margin(band).text), token_of(str(verdict)))
    label = f"Loss {path.id}  "
    first: Row = [Run(label, Token.DIM), Run(window, Token.BOLD)]
    second: Row = [*tag(verdict, type.glyphs), Run("  "), margin]
    if width(first) + width(second) + 2 <= columns:
        yield item([*first, Run("  "), *second])
    else:
        yield item(first if width(first) <= columns else first[1:])
        yield item(second)
    yield item(window_bar(path, columns - 1, type))


HAVE, NEED, MARGIN = ("have", 8), ("need", 7), ("margin", 8)
"""Headings and columns of distances; the margin goes first where there is little room."""

WORD_COLUMNS = 7


def distance_items(
    assessment: Assessment, antenna: str, columns: int, type: Type
) -> Iterator[Item]:
    """Yield a heading, then every other antenna, the least margin first."""
    facts = [fact for fact in assessment.spacing if antenna in (fact.a, fact.b)]
    if not facts:
        yield item([Run("No other antenna.", Token.DIM)])
        return
    others = {fact: fact.b if fact.a == antenna else fact.a for fact in facts}
    room = max(len("Distance") - 2, *map(len, others.values()))
    shown = [HAVE, NEED, MARGIN]
    if room + 2 + sum(wide for _, wide in shown) + WORD_COLUMNS > columns:
        shown.remove(MARGIN)
    heads = "".join(text.rjust(wide) for text, wide in shown)
    yield item([Run(f"{'Distance'.ljust(room + 2)}{heads} {type.unit}", Token.DIM)])
    for fact in sorted(facts, key=_worst_first):
        yield item(_distance_row(fact, others[fact].ljust(room), len(shown), type))


def _worst_first(fact: SpacingFact) -> tuple[bool, float, str, str]:
    known = fact.margin_m is not None
    return not known, fact.centre_m if fact.margin_m is None else fact.margin_m, fact.a, fact.b


def _distance_row(fact: SpacingFact, name: str, count: int, type: Type) -> Row:
    judged = fact.verdict if fact.rule is not None else None
    ink = Token.TEXT if judged is not None else Token.DIM
    numbers = [length_text(value, type.unit) for value in (_have_m(fact), fact.need_m)]
    margin = length_text(fact.margin_m, type.unit)
    known = fact.margin_m is not None and not margin.startswith("-")
    numbers.append(f"+{margin}" if known else type.signed(margin))
    row: Row = [sign(judged, type.glyphs), Run(" "), Run(name, ink)]
    columns = zip(numbers[:count], (HAVE, NEED, MARGIN), strict=False)
    row += [Run(number.rjust(wide), ink) for number, (_, wide) in columns]
    return [*row, Run(" "), word(judged)] if judged is not None else row


def _have_m(fact: SpacingFact) -> float | None:
    """The distance that the rule speaks of, that of the centres where none does."""
    return {"edge": fact.edge_m, "skin": fact.skin_m}.get(fact.datum or "", fact.centre_m)


def tightest_words(assessment: Assessment, antenna: str, type: Type) -> str:
    """Return '26.0 in from satcom (needs 30.0)' for the pair with the least room."""
    facts = [
        fact
        for fact in assessment.spacing
        if antenna in (fact.a, fact.b) and fact.margin_m is not None and fact.need_m is not None
    ]
    if not facts:
        return ""
    fact = min(facts, key=_worst_first)
    other = fact.b if fact.a == antenna else fact.a
    have, need = (length_text(value, type.unit) for value in (_have_m(fact), fact.need_m))
    asks = "advised" if fact.strictness is Strictness.ADVICE else "needs"
    return f"{have} {type.unit} from {other} ({asks} {need})"


def sentence(standing: Standing, columns: int, type: Type) -> Row:
    """Return what the plan comes to for an antenna and its path, as fully as the columns hold."""
    path, place, found = standing.chosen_path, standing.place, _deciding(standing, type)
    near = found or tightest_words(standing.assessment, standing.antenna, type)
    if path is None:
        return [Run(f"{standing.antenna}  {near}")] if place else [Run("Nothing selected.")]
    lead: Row = [*tag(path.overall, type.glyphs), Run(f" {path.id}  ", Token.BOLD)]
    power = "" if found or path.overall is loss_word(path) else power_line(path)
    tails = list(_tails_of_power(path, power) if power else _tails_of_loss(path, near))
    fits = (tail for tail in tails if width(lead) + len(tail) <= columns)
    shortest = words_cut(tails[-1], columns - width(lead), type.ellipsis)
    return [*lead, Run(type.signed(next(fits, shortest)).rstrip("; "))]


def _tails_of_loss(path: PathAssessment, near: str) -> Iterator[str]:
    """Yield what is said of a path, the fullest first."""
    band, loss = governing(path), loss_word(path)
    margin = nearer_margin(band)
    yield f"loss {loss} {window_text(band)}, {_told(margin)}; {near}"
    yield f"loss {loss} {_told(margin)}; {near}"
    yield f"loss {loss} {short_margin(band)}; {near}"
    yield f"{_told(margin)}; {near}"
    yield f"{short_margin(band)}; {near}"


def _tails_of_power(path: PathAssessment, power: str) -> Iterator[str]:
    """Yield what is said of a path that a power decides, the fullest first."""
    yield f"{power}; loss {loss_word(path)} {_told(nearer_margin(governing(path)))}"
    yield power


def _deciding(standing: Standing, type: Type) -> str:
    """The finding that decided the path where the loss did not, nothing where none did."""
    path = standing.chosen_path
    if path is not None and path.overall is not loss_word(path):
        for finding in standing.assessment.findings:
            if finding.id in path.findings and finding.verdict is path.overall:
                return said(finding, type.unit)
    return ""


def _told(margin: Cell) -> str:
    return margin.text if margin.value is None else margin.text.replace(" to ", " dB to ")
