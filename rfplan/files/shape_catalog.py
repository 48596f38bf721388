# SPDX-License-Identifier: Apache-2.0
"""The shape of catalogue files: tables by frequency, losses by basis."""

from __future__ import annotations

from functools import partial

from rfplan.files.nodes import Node
from rfplan.files.shape import changed, each, entries, rows, under

_LOSS_SET_KEYS = {"loss", "points", "tolerance", "source"}


def shape_cable(root: Node) -> Node:
    """Return a cable file in the shape of its record."""
    table = partial(rows, key_name="frequency", value_name="attenuation")
    return changed(root, attenuation=each(partial(changed, points=table)))


def shape_part(root: Node) -> Node:
    """Return a connector or inline part file in the shape of its record."""
    return changed(root, loss=_losses, ports=each(partial(changed, loss=_losses)))


def shape_antenna(root: Node) -> Node:
    """Return an antenna file in the shape of its record."""
    whole = under("all")
    return changed(root, base=_both_sides, pigtail=_losses, amplifier=whole, noise_figure=whole)


def _losses(node: Node) -> Node:
    """Return one loss, one set, or sets by basis as sets by basis; a lone one is nominal."""
    keys = set(entries(node))
    if keys & {"loss", "points"} and keys <= _LOSS_SET_KEYS:
        node = Node.mapping({"nominal": node}, {"nominal": node.mark}, node.mark)
    table = partial(rows, key_name="frequency", value_name="loss")
    return each(lambda loss: changed(under("loss")(loss), points=table))(under("nominal")(node))


def _both_sides(node: Node) -> Node:
    """Return one length as length and width of a base."""
    if isinstance(node.value, dict):
        return node
    sides = ("length", "width")
    return Node.mapping(dict.fromkeys(sides, node), dict.fromkeys(sides, node.mark), node.mark)
