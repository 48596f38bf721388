# SPDX-License-Identifier: Apache-2.0
"""A small complete aircraft, invented, in which no rule finds anything; tests change one thing.

Two units, three antennas, three cables, six nodes. All figures are made up for the tests.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from rfplan.analysis.facts import Facts, gather
from rfplan.assess import assess
from rfplan.model.airframe import (
    Airframe,
    Node,
    Panel,
    Route,
    Section,
    Segment,
    SegmentChange,
    Speeds,
    Variant,
    Weight,
)
from rfplan.model.assessment import Assessment
from rfplan.model.catalog import (
    AntennaType,
    AttenuationPoint,
    AttenuationSet,
    Base,
    Cable,
    Catalog,
    Conductor,
    Connector,
    Dielectric,
    InlinePart,
    LossSet,
    PartPort,
)
from rfplan.model.plan import (
    Antenna,
    Assembly,
    Installation,
    Path,
    Person,
    Plan,
    Policy,
    Port,
    Revision,
    Unit,
)
from rfplan.model.record import ById
from rfplan.model.rulebook import (
    Band,
    Limits,
    Material,
    Radio,
    RadioClass,
    Rulebook,
    SensitivityLimit,
    Spacing,
    Strictness,
    ZoneKind,
)
from rfplan.model.source import Source
from rfplan.units import NONE, Place, Range, Toleranced

IN = 0.0254
MHZ = 1.0e6
SHEET = Source("specification", document="invented sheet", issue="1", read="invented")
SOURCES = ById({"sheet": SHEET})


def inch(*lengths: float) -> Any:
    """Return one length in metres, or a tuple of several."""
    metres = tuple(length * IN for length in lengths)
    return metres if len(metres) > 1 else metres[0]


def place(fs_in: float, bl_in: float, wl_in: float | None = None) -> Place:
    """Return a place from inches, butt line negative to the left."""
    return Place(fs_in * IN, bl_in * IN, None if wl_in is None else wl_in * IN)


def sample_airframe(**changes: Any) -> Airframe:
    """Return an aluminium hull, 60 in wide, with a route to the roof and one to the belly."""
    rows = [(20, 10, 38, 56), (60, 30, 30, 75), (160, 30, 30, 75), (240, 6, 56, 66)]
    nodes = {
        "p1": Node(place(62, 0, 50), "panel rear", source="sheet"),
        "apl": Node(place(66, -24, 60), "door post left", source="sheet"),
        "rf1": Node(place(80, 0, 74), "roof, forward", source="sheet"),
        "apr": Node(place(66, 24, 60), "door post right", source="sheet"),
        "rf2": Node(place(130, 0, 74), "roof, aft", source="sheet"),
        "flr": Node(place(110, 0, 31), "floor", passes=2, source="sheet"),
    }
    lengths = {"p1-apl": 30, "apl-rf1": 36, "p1-apr": 30, "apr-rf2": 76, "p1-flr": 56}
    segments = ById((id, Segment(inch(length), "sheet")) for id, length in lengths.items())
    airframe = Airframe(
        id="sample",
        name="Sample two-seater",
        datum="FS 0 is 40 in ahead of the firewall",
        sections=tuple(Section(inch(f), inch(w), inch(b), inch(t), 3.0) for f, w, b, t in rows),
        sources=SOURCES,
        source="sheet",
        skin=ById({"hull": Panel("all", "aluminium", source="sheet")}),
        route=Route(ById(nodes), segments, "sheet"),
        weight=Weight(
            empty_kg=336.5,
            cg_m=inch(94.6),
            limits_m=Range(*inch(90.0, 99.5)),
            lemac_m=inch(82.0),
            mac_m=inch(48.0),
            source="sheet",
        ),
        speeds=Speeds(80.0, "sheet"),
        variants=ById(
            {
                "base": Variant(((1, 24),)),
                "floats": Variant(((25, 60),), ById({"p1-flr": SegmentChange(None, inch(14))})),
            }
        ),
    )
    return replace(airframe, **changes)


def sample_unit(**ports: Port) -> Unit:
    """Return a unit behind the panel."""
    return Unit(ById(ports), at=place(62, -4, 50), title="invented unit", source="sheet")


def _units() -> ById[Unit]:
    gnss = Port(
        radio="gnss_l1",
        plug="tnc",
        loss_db=ById({"all": Range(0.5, 4.0)}),
        plugs="included",
        terminations="matched",
        limit_at="range",
        mounting="outside skin",
        source="sheet",
    )
    com = replace(
        gnss,
        radio="vhf_com",
        plug="bnc",
        loss_db=ById({"all": Range(NONE, 2.5)}),
        power_w=Range(16.0, 16.0),
        mounting=None,
    )
    transponder = replace(
        com,
        radio="transponder",
        loss_db=ById({"all": Range(NONE, 2.0)}),
        power_w=Range(200.0, 250.0),
        class_="high",
        sensitivity_dbm=ById({"all": Range(-76.0, -74.0)}),
    )
    right = replace(sample_unit(ant=transponder), at=place(62, 4, 50))
    return ById({"nav1": sample_unit(gnss=gnss, com=com), "xp1": right})


def sample_assembly(**changes: Any) -> Assembly:
    """Return an assembly of the sample cable with loops, drops and an allowance."""
    assembly = Assembly(
        type="coax_5mm",
        plugs=("bnc", "bnc"),
        loops_m=inch(6, 6),
        drops_m=inch(6, 3),
        retermination_m=inch(4),
        tolerance_m=inch(0.5),
        source="sheet",
    )
    return replace(assembly, **changes)


def sample_installation(**changes: Any) -> Installation:
    """Return what the design fits."""
    installation = Installation(
        units=_units(),
        antennas=ById(
            {
                "gnss1": Antenna("gnss_active", "top", place(80, 0), source="sheet"),
                "com1": Antenna("com_whip", "top", place(130, 0), source="sheet"),
                "xpdr1": Antenna("xpdr_stub", "belly", place(110, 0), source="sheet"),
            }
        ),
        cables=ById(
            {
                "w11": sample_assembly(plugs=("tnc", "tnc")),
                "w21": sample_assembly(),
                "w31": sample_assembly(),
            }
        ),
        paths=ById(
            {
                "gnss1": Path(("nav1.gnss", "w11", "gnss1")),
                "com1": Path(("nav1.com", "w21", "com1")),
                "xpdr1": Path(("xp1.ant", "w31", "xpdr1")),
            }
        ),
    )
    return replace(installation, **changes)


def sample_plan(**changes: Any) -> Plan:
    """Return the plan: GNSS found on the glareshield, moved to the roof by the design."""
    design = sample_installation()
    as_found = Antenna("gnss_active", "glareshield", place(58, -7, 54), source="sheet")
    short = Assembly("coax_5mm", ("tnc", "tnc"), length_m=inch(31), source="sheet")
    lengths = {"w11": 91.5, "w21": 131.0, "w31": 81.0}
    built = ById(
        (id, replace(design.cables[id], length_m=inch(length))) for id, length in lengths.items()
    )
    plan = Plan(
        id="sample",
        title="GNSS antenna to the roof",
        airframe=sample_airframe(),
        found=replace(
            design,
            antennas=design.antennas.having("gnss1", as_found),
            cables=design.cables.having("w11", short),
        ),
        design=design,
        built=replace(design, cables=built),
        serial="17",
        revision=Revision("A", "draft", date(2026, 11, 25), "17"),
        people=ById(
            {"prepared": Person("P. One", stamp="P1"), "checked": Person("C. Two", "engineer")}
        ),
        sources=SOURCES,
        policy=Policy(strip_m=inch(0.25), cut_step_m=inch(0.5)),
        spacing=ById(
            {
                "gnss_com": Spacing(
                    from_="gnss",
                    to="vhf_com",
                    min_m=inch(36),
                    id="gnss_com",
                    strict=Strictness.REQUIRED,
                    source="sheet",
                )
            }
        ),
    )
    return replace(plan, **changes)


def refitted(plan: Plan, section: str, id: str, **changes: Any) -> Plan:
    """Return a plan in whose present state one thing differs: `refitted(plan, "antennas", ...)`."""
    things = getattr(plan.installation, section)
    there: dict[str, Any] = {section: things.having(id, replace(things[id], **changes))}
    present: dict[str, Any] = {str(plan.state): replace(plan.installation, **there)}
    return replace(plan, **present)


def with_port(plan: Plan, unit: str, port: str, **changes: Any) -> Plan:
    """Return a plan in whose present state one port of a unit differs."""
    ports = plan.installation.units[unit].ports
    return refitted(plan, "units", unit, ports=ports.having(port, replace(ports[port], **changes)))


def sample_cable(**changes: Any) -> Cable:
    """Return an invented 5 mm cable with a table from 10 MHz to 2 GHz."""
    table = {10: 0.0458, 100: 0.1500, 400: 0.3090, 1000: 0.5030, 2000: 0.7310}
    points = tuple(AttenuationPoint(f * MHZ, loss) for f, loss in table.items())
    cable = Cable(
        id="coax_5mm",
        designation="Sample 5 mm",
        impedance_ohm=Toleranced(50.0, 2.0),
        velocity_ratio=0.695,
        attenuation=ById({"nominal": AttenuationSet(None, True, 0.05, points, source="sheet")}),
        diameter_m=0.005,
        mass_kg_per_m=0.070,
        centre=Conductor("silver-plated copper", "stranded"),
        dielectric=Dielectric("PTFE", 0.0003),
        rated_c=Range(-55.0, 200.0),
        invented=True,
        sources=SOURCES,
        source="sheet",
    )
    return replace(cable, **changes)


def sample_connector(series: str, **changes: Any) -> Connector:
    """Return an invented connector of one series."""
    loss = ById({"nominal": LossSet(0.08, tolerance_db=0.04, source="sheet")})
    connector = Connector(
        series=series,
        id=series,
        impedance_ohm=Toleranced(50.0, 0.0),
        loss=loss,
        mass_kg=0.015,
        invented=True,
        sources=SOURCES,
        source="sheet",
    )
    return replace(connector, **changes)


def sample_antenna(id: str, radio: str, **changes: Any) -> AntennaType:
    """Return an invented antenna type for one kind of radio."""
    antenna = AntennaType(
        title=f"invented {id}",
        radios=(radio,),
        id=id,
        plug="bnc",
        base=Base(*inch(3.0, 2.0)),
        height_m=inch(3.0),
        frontal_area_m2=0.002,
        gap_m=inch(0.06),
        ground_plane="quarter_wave",
        mass_kg=0.150,
        invented=True,
        sources=SOURCES,
        source="sheet",
    )
    return replace(antenna, **changes)


def _parts() -> ById[InlinePart]:
    loss = ById({"nominal": LossSet(0.1, tolerance_db=0.05, source="sheet")})
    branch = PartPort("tnc", ById({"nominal": LossSet(3.4, tolerance_db=0.2, source="sheet")}))
    through = InlinePart(
        kind="bulkhead",
        title="invented feed-through",
        id="tnc_through",
        plugs=("tnc", "tnc"),
        loss=loss,
        dc="pass",
        sources=SOURCES,
        source="sheet",
    )
    pad_loss = ById({"nominal": LossSet(3.0, tolerance_db=0.2, source="sheet")})
    pad = replace(through, kind="pad", title="invented pad", id="pad_3db", loss=pad_loss)
    split = replace(
        through,
        kind="splitter",
        title="invented splitter",
        id="split_2",
        plugs=None,
        common="tnc",
        ports=ById({"a": branch, "b": branch}),
        loss=ById(),
    )
    return ById((part.id, part) for part in (through, pad, split))


def sample_catalog(**changes: Any) -> Catalog:
    """Return a catalogue with two cables, two connector series, three parts, three antennas."""
    thin = sample_cable(
        id="coax_3mm",
        attenuation=ById(
            {
                "nominal": AttenuationSet(
                    tolerance_ratio=0.05,
                    points=tuple(
                        AttenuationPoint(f * MHZ, loss)
                        for f, loss in {100: 0.30, 1000: 1.01, 2000: 1.47}.items()
                    ),
                    source="sheet",
                )
            }
        ),
        diameter_m=0.003,
        mass_kg_per_m=0.020,
    )
    antennas = (
        sample_antenna("gnss_active", "gnss_l1", plug="tnc", ground_plane="none"),
        sample_antenna("com_whip", "vhf_com", height_m=inch(23.5)),
        sample_antenna("xpdr_stub", "transponder", base=Base(*inch(1.7, 1.7))),
    )
    catalog = Catalog(
        cables=ById({"coax_5mm": sample_cable(), "coax_3mm": thin}),
        connectors=ById((series, sample_connector(series)) for series in ("tnc", "bnc")),
        inline_parts=_parts(),
        antennas=ById((antenna.id, antenna) for antenna in antennas),
    )
    return replace(catalog, **changes)


def _radios() -> ById[Radio]:
    com = Range(117.975 * MHZ, 137.0 * MHZ).known()
    radios = (
        Radio(
            "GNSS on L1",
            "gnss",
            ById({"rx": Band("rx", 1563.42 * MHZ, 1587.42 * MHZ)}),
            "gnss_l1",
            source="INVENTED",
        ),
        Radio(
            "VHF communication",
            "vhf_com",
            ById({"rx": Band("rx", *com), "tx": Band("tx", *com)}),
            "vhf_com",
            source="INVENTED",
        ),
        Radio(
            "ATC transponder",
            "lband",
            ById(
                {
                    "rx": Band("rx", 1030.0 * MHZ, 1030.0 * MHZ),
                    "tx": Band("tx", 1090.0 * MHZ, 1090.0 * MHZ),
                }
            ),
            "transponder",
            classes=ById({"high": RadioClass(Range(125.0, 500.0), "INVENTED")}),
            sensitivity=ById(
                {
                    "atcrbs": SensitivityLimit(Range(-77.0, -69.0), "INVENTED"),
                    "mode_s": SensitivityLimit(Range(-77.0, -71.0), "INVENTED"),
                }
            ),
            source="INVENTED",
        ),
    )
    return ById((radio.id, radio) for radio in radios)


def _zone_kinds() -> ById[ZoneKind]:
    advice, required = Strictness.ADVICE, Strictness.REQUIRED
    rows = [
        ("keep_out", "keep-out area", "forbidden", required),
        ("hatch", "hatch", "forbidden", required),
        ("door", "door", "removable", advice),
        ("removable", "removable panel", "removable", advice),
        ("window", "window", "forbidden", required),
        ("windshield", "windshield", "edge", advice),
        ("fuel", "fuel tank", "forbidden", required),
        ("strap", "strap", "caution", advice),
        ("hot", "hot area", "hot", advice),
        ("sensor", "sensor", "sensor", advice),
        ("allowed", "permitted area", "allowed", advice),
    ]
    return ById(
        (id, ZoneKind(title, effect, strict, f"text of {id}", f"remedy of {id}", "INVENTED", id))  # type: ignore[arg-type]
        for id, title, effect, strict in rows
    )


def sample_rulebook(**changes: Any) -> Rulebook:
    """Return three radios, three spacings, four materials, the zone kinds and the limits."""
    spacings = (
        Spacing("gnss", "vhf_com", inch(24), "sep_gnss_com", source="INVENTED"),
        Spacing("gnss", "any", inch(9), "sep_gnss_any", source="INVENTED"),
        Spacing("gnss", "windshield", inch(3), "sep_gnss_windshield", source="INVENTED"),
    )
    skins = {"aluminium": "conductive", "carbon": "lossy", "glass": "transparent"}
    limits = Limits(
        support_spacing_m=inch(24),
        bend_floor_od=6.0,
        bend_advice_od=10.0,
        base_gap_m=inch(0.06),
        near_db=0.5,
        shorter_than_straight_m=inch(0.5),
        shorter_than_straight_part_ratio=0.02,
        sources=ById(),
    )
    rulebook = Rulebook(
        radios=_radios(),
        spacings=ById((spacing.id, spacing) for spacing in spacings),
        materials=ById(
            (id, Material(id, skin, "INVENTED", id))  # type: ignore[arg-type]
            for id, skin in {**skins, "copper foil": "conductive"}.items()
        ),
        zone_kinds=_zone_kinds(),
        limits=limits,
        sha256="0" * 64,
    )
    return replace(rulebook, **changes)


def sample_assessment(
    plan: Plan | None = None, catalog: Catalog | None = None, rulebook: Rulebook | None = None
) -> Assessment:
    """Return the assessment of a plan, by default of the sample with nothing changed."""
    return assess(plan or sample_plan(), catalog or sample_catalog(), rulebook or sample_rulebook())


def sample_facts(
    plan: Plan | None = None, catalog: Catalog | None = None, rulebook: Rulebook | None = None
) -> Facts:
    """Return the facts of a plan, by default of the sample with nothing changed."""
    return gather(plan or sample_plan(), catalog or sample_catalog(), rulebook or sample_rulebook())


def with_airframe(plan: Plan, **changes: Any) -> Plan:
    """Return a plan whose airframe differs."""
    return replace(plan, airframe=replace(plan.airframe, **changes))


def with_antenna(plan: Plan, id: str, antenna: Antenna) -> Plan:
    """Return a plan with one antenna more (or another one) in its present state."""
    there = plan.installation.antennas.having(id, antenna)
    present: dict[str, Any] = {str(plan.state): replace(plan.installation, antennas=there)}
    return replace(plan, **present)


def with_radio(rulebook: Rulebook, id: str, **changes: Any) -> Rulebook:
    """Return a rulebook in which one kind of radio differs."""
    radios = rulebook.radios
    return replace(rulebook, radios=radios.having(id, replace(radios[id], **changes)))


def with_entry(catalog: Catalog, section: str, id: str, **changes: Any) -> Catalog:
    """Return a catalogue in which one entry differs: `with_entry(catalog, "cables", ...)`."""
    entries = getattr(catalog, section)
    there: dict[str, Any] = {section: entries.having(id, replace(entries[id], **changes))}
    return replace(catalog, **there)
