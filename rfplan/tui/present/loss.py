# SPDX-License-Identifier: Apache-2.0
"""What the loss of a path is made of: each element as a bar between both limits, with sources."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rfplan.model.assessment import Assessment, BandLoss, ChainItem, PathAssessment
from rfplan.reports.cells import decibels, frequency
from rfplan.reports.loss_line import governing, nearer_margin
from rfplan.reports.outcome import band_word, loss_word
from rfplan.reports.wrapping import wrapped
from rfplan.tui.glyphs import Glyphs
from rfplan.tui.panes import Item, Pane, blank, heading, item
from rfplan.tui.present.paths import full_window, limit_words, limits_db
from rfplan.tui.present.tags import Type, length_text, tag
from rfplan.tui.runs import Row, Run, filled, laid, width, words_cut
from rfplan.tui.tokens import Token, token_of

KIND_COLUMNS = 11
NAME_COLUMNS, LEAST_NAME_COLUMNS = 18, 12
LOSS_COLUMNS = 15
LEAST_BAR_COLUMNS = 8


@dataclass(frozen=True, slots=True)
class Scale:
    """How decibels run along a bar."""

    columns: int
    most_db: float

    def cells(self, loss_db: float) -> float:
        """Return where a loss falls, in cells."""
        return max(0.0, min(float(self.columns), loss_db / self.most_db * self.columns))


def loss_scale(band: BandLoss, columns: int) -> Scale:
    """Return a scale that holds the loss and both limits."""
    values = [*limits_db(band), *band.judged_db, band.max_corner.loss_db]
    known = [value for value in values if value is not None]
    return Scale(columns, max([*known, 0.1]) * 1.06)


def bar(scale: Scale, start_db: float, stop_db: float, token: Token, glyphs: Glyphs) -> Row:
    """Return a bar; its right end is as fine as the signs allow."""
    first, last = scale.cells(start_db), scale.cells(stop_db)
    start, fine = int(first), len(glyphs.bar)
    eighths = max(1, round((last - start) * fine)) if last > first else 0
    whole, rest = divmod(eighths, fine)
    text = glyphs.bar[-1] * whole + (glyphs.bar[rest - 1] if rest else "")
    return filled([Run(" " * start), Run(text[: scale.columns - start], token)], scale.columns)


def with_limits(row: Row, scale: Scale, band: BandLoss, glyphs: Glyphs) -> Row:
    """Return a bar with a mark at each limit."""
    for limit_db in limits_db(band):
        if limit_db is not None:
            column = min(scale.columns - 1, int(scale.cells(limit_db)))
            row = laid(row, column, [Run(glyphs.limit, Token.FAIL)])
    return row


def window_bar(path: PathAssessment, columns: int, type: Type) -> Row:
    """Return the loss of a path from its least to its most, between both limits."""
    band = governing(path)
    scale = loss_scale(band, columns)
    least, most = band.judged_db
    token = token_of(str(loss_word(path)))
    ends = (least or 0.0, most if most is not None else least or 0.0)
    return with_limits(bar(scale, *ends, token, type.glyphs), scale, band, type.glyphs)


def limits_row(band: BandLoss, columns: int) -> Row:
    """Return the words of both limits under their marks, as far as there is room."""
    scale, row = loss_scale(band, columns), filled([], columns)
    taken = columns
    for words, limit_db in reversed(list(zip(limit_words(band), _drawn(band), strict=False))):
        at = min(int(scale.cells(limit_db)) - len(words) + 1, taken - len(words))
        if at < 0:
            at = 0
        if at + len(words) <= taken:
            row, taken = laid(row, at, [Run(words, Token.FAIL)]), at - 1
    return row


def _drawn(band: BandLoss) -> list[float]:
    return [limit_db for limit_db in limits_db(band) if limit_db is not None]


def contributions_pane(
    assessment: Assessment,
    path: PathAssessment,
    columns: int,
    type: Type,
    band: BandLoss | None = None,
) -> Pane:
    """Return one bar for each element, one behind the other, and the total.

    They are those of the band that decides, unless another one is given.
    """
    band = band or governing(path)
    free = columns - KIND_COLUMNS - LOSS_COLUMNS - 2
    name_columns = max(LEAST_NAME_COLUMNS, min(NAME_COLUMNS, free - LEAST_BAR_COLUMNS))
    room = max(LEAST_BAR_COLUMNS, free - name_columns)
    scale, before_db = loss_scale(band, room), 0.0
    items = []
    for chain_item, losses in zip(path.chain, band.item_db, strict=True):
        most = losses[2] or 0.0
        token = Token.ACCENT if chain_item.kind == "cable" else Token.WING
        drawn = bar(scale, before_db, before_db + most, token, type.glyphs)
        row = _element(assessment, chain_item, name_columns, type)
        row += with_limits(drawn, scale, band, type.glyphs)
        row += [Run("  "), Run(_losses(losses[0], losses[2]).rjust(LOSS_COLUMNS))]
        items.append(item(row))
        before_db += most
    items += _totals(band, scale, name_columns, type)
    title = heading(f"{path.id} contributions", f"{_band_words(band)}")
    return Pane("contributions", title, items)


def _band_words(band: BandLoss) -> str:
    low, high = frequency(band.low_hz).text, frequency(band.high_hz).text
    span = low if low == high else f"{low} .. {high}"
    return f"{band.name} {span} MHz"


def _element(assessment: Assessment, chain_item: ChainItem, columns: int, type: Type) -> Row:
    """Kind and name of an element; a cable with its length."""
    kind = chain_item.kind.replace("_", " ")
    name = chain_item.type
    if chain_item.kind == "cable" and chain_item.id is not None:
        run = assessment.cables[chain_item.id]
        name = f"{name} {length_text(run.length_m.nominal, type.unit)} {type.unit}"
    name = words_cut(name, columns - 1, type.ellipsis) or name[: columns - 1]
    return [Run(kind.ljust(KIND_COLUMNS), Token.TEXT), Run(name.ljust(columns), Token.DIM)]


def _losses(least_db: float | None, most_db: float | None) -> str:
    least, most = decibels(least_db).text, decibels(most_db).text
    return least if least == most else f"{least} .. {most}"


def _totals(band: BandLoss, scale: Scale, columns: int, type: Type) -> Iterator[Item]:
    """The sum over the range of the shop, and what is judged where that is not the same."""
    least, most = band.judged_db
    word = band_word(band)
    token = token_of(str(word))
    label = [Run("judged".ljust(KIND_COLUMNS), Token.BOLD)]
    basis = "at the datum of the limit" if _judged_elsewhere(band) else "worst case"
    label.append(Run(words_cut(basis, columns - 1).ljust(columns), Token.DIM))
    drawn = bar(scale, 0.0, most or least or 0.0, token, type.glyphs)
    loss = Run(_losses(least, most).rjust(LOSS_COLUMNS), Token.BOLD)
    yield item([*label, *with_limits(drawn, scale, band, type.glyphs), Run("  "), loss])
    margin: Row = [Run("margin".ljust(KIND_COLUMNS), Token.BOLD)]
    margin.append(Run(type.signed(nearer_margin(band).text).ljust(columns), token))
    limits = limits_row(band, scale.columns)
    verdict = tag(word, type.glyphs)
    pad = Run(" " * max(0, 2 + LOSS_COLUMNS - width(verdict)))
    yield item([*margin, *limits, pad, *verdict])


def _judged_elsewhere(band: BandLoss) -> bool:
    """Whether the limit holds at another temperature than the shop's range."""
    most = band.judged_db[1]
    return (
        most is not None
        and band.max_corner.loss_db is not None
        and (abs(most - band.max_corner.loss_db) > 5e-3)
    )


def chain_pane(assessment: Assessment, path: PathAssessment, columns: int, type: Type) -> Pane:
    """Return every element with its losses and where they come from."""
    band = governing(path)
    items = [_end(f"{path.unit}.{path.port}", _title_of_unit(assessment, path))]
    for index, chain_item in enumerate(path.chain):
        rows = _chain_rows(assessment, path, chain_item, band, index, columns, type)
        items.append(Item(list(rows)))
    items.append(_end(path.antenna, _title_of_antenna(assessment, path)))
    items.append(blank())
    items += [Item(list(_window_rows(band, columns, type)))]
    return Pane("chain", heading(f"{path.id} chain", f"{path.direction} {path.radio}"), items)


def _end(id: str, title: str) -> Item:
    return item([Run(id, Token.BOLD), Run(f"  {title}" if title else "", Token.DIM)])


def _title_of_unit(assessment: Assessment, path: PathAssessment) -> str:
    unit = assessment.plan.installation.units.get(path.unit)
    return (unit.title or "") if unit else ""


def _title_of_antenna(assessment: Assessment, path: PathAssessment) -> str:
    antenna = assessment.plan.installation.antennas.get(path.antenna)
    return antenna.type if antenna else ""


def _chain_rows(
    assessment: Assessment,
    path: PathAssessment,
    chain_item: ChainItem,
    band: BandLoss,
    index: int,
    columns: int,
    type: Type,
) -> Iterator[Row]:
    """Kind, name and losses of an element, and below them its length and its source."""
    losses, ageing_db = band.item_db[index], band.item_ageing_db[index]
    loss = f"{_losses(losses[0], losses[2])} dB"
    kind = chain_item.kind.replace("_", " ")
    name = f"{kind} {chain_item.type} {chain_item.id or ''}".rstrip()
    name = words_cut(name, columns - len(loss) - 4, type.ellipsis)
    yield [Run("  "), Run(name.ljust(columns - len(loss) - 3)), Run(loss, Token.BOLD)]
    told = f"{chain_item.basis or 'no basis'}"
    if chain_item.kind == "cable" and chain_item.id is not None:
        run = assessment.cables[chain_item.id]
        told = f"{length_text(run.length_m.nominal, type.unit)} {type.unit}, {told}"
    if ageing_db != 0.0:
        told += f", {decibels(ageing_db).text} dB of it for ageing"
    beyond = _beyond(chain_item, path)
    for line in wrapped(f"{told}{beyond}: {chain_item.source or 'no source'}", columns - 4):
        yield [Run("    "), Run(line, Token.DIM)]


def _beyond(chain_item: ChainItem, path: PathAssessment) -> str:
    """Say whether a loss is read beyond its table, and in which bands where not in all."""
    bands = chain_item.extrapolated_in
    if not bands:
        return ""
    where = f" in {' and '.join(bands)}" if len(bands) < len(path.bands) else ""
    return f", beyond its table{where}"


def _window_rows(band: BandLoss, columns: int, type: Type) -> Iterator[Row]:
    """The window with its datum and source."""
    yield [Run("loss in its window  ", Token.DIM), Run(f"{full_window(band)} dB", Token.BOLD)]
    told = ", ".join(part for part in (band.window.datum, band.window.source) if part)
    for line in wrapped(told, columns - 2):
        yield [Run("  "), Run(line, Token.DIM)]
