# SPDX-License-Identifier: Apache-2.0
"""The bibliography: every document a number or formula rests on, and how well it was read."""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable
from dataclasses import dataclass
from difflib import get_close_matches
from enum import StrEnum
from functools import partial
from typing import TypeVar

_CITATIONS = "__citations__"
_PARAMETER = re.compile(r"^(?P<names>\w+(?:, \w+)*) : ")
_UNIT = re.compile(r"\[([^\]]+)\]$")

_Function = TypeVar("_Function", bound=Callable[..., object])


class SourceClass(StrEnum):
    """How a statement came to be known; nothing ever moves up this list by itself."""

    READ = "read"
    SECOND_HAND = "second_hand"
    MEMORY = "memory"
    COMMON_PRACTICE = "common_practice"
    LIBRARY = "library"
    OWN_COMPUTATION = "own_computation"
    INVENTED = "invented"

    @property
    def words(self) -> str:
        """Return the class in the words a sheet prints."""
        return _CLASS_WORDS[self]


_CLASS_WORDS = {
    SourceClass.READ: "read in a copy",
    SourceClass.SECOND_HAND: "second hand",
    SourceClass.MEMORY: "from memory",
    SourceClass.COMMON_PRACTICE: "common practice",
    SourceClass.LIBRARY: "open library",
    SourceClass.OWN_COMPUTATION: "own computation",
    SourceClass.INVENTED: "invented",
}


@dataclass(frozen=True, slots=True)
class Document:
    """A text with its key; a community text supports a number but never carries it alone."""

    key: str
    title: str
    source_class: SourceClass
    note: str = ""
    community: bool = False

    def at(self, place: str) -> Citation:
        """Return the citation of one place in this document."""
        return Citation(self, place)


@dataclass(frozen=True, slots=True)
class Citation:
    """A place in a document."""

    document: Document
    place: str = ""

    @property
    def reference(self) -> str:
        """Return key and place as files write them; `citation` reads it back."""
        return f"{self.document.key} {self.place}".rstrip()

    def text(self) -> str:
        """Return title and place as a sheet prints them."""
        return f"{self.document.title}, {self.place}" if self.place else self.document.title


@dataclass(frozen=True, slots=True)
class Parameter:
    """One argument of a formula with its unit; 1 is a pure number, - is not a quantity."""

    name: str
    unit: str


@dataclass(frozen=True, slots=True)
class Formula:
    """A cited function: what goes in, what comes out, and who says so."""

    name: str
    function: Callable[..., object]
    parameters: tuple[Parameter, ...]
    returns: str
    citations: tuple[Citation, ...]


_REGISTRY: dict[str, tuple[Callable[..., object], str]] = {}


def cites(*citations: Citation, returns: str) -> Callable[[_Function], _Function]:
    """Record a formula with its sources and the unit it returns; the function is unchanged."""

    def record(function: _Function) -> _Function:
        setattr(function, _CITATIONS, citations)
        _REGISTRY[f"{function.__module__}.{function.__qualname__}"] = (function, returns)
        return function

    return record


def source_of(function: Callable[..., object]) -> tuple[Citation, ...]:
    """Return the citations of a formula; LookupError if it has none."""
    try:
        citations: tuple[Citation, ...] = getattr(function, _CITATIONS)
    except AttributeError:
        raise LookupError(f"{function.__qualname__} cites no source") from None
    return citations


def formulas() -> tuple[Formula, ...]:
    """Return every formula of the modules imported so far, sorted by dotted name."""
    return tuple(
        Formula(name, function, _parameters(function), returns, source_of(function))
        for name, (function, returns) in sorted(_REGISTRY.items())
    )


def citation(text: str) -> Citation:
    """Resolve 'AC_43_13_1B 11-96a'; LookupError with near misses if the key is unknown."""
    key, _, place = text.strip().partition(" ")
    if key in DOCUMENTS:
        return DOCUMENTS[key].at(place.strip())
    near = " or ".join(get_close_matches(key.upper(), DOCUMENTS, n=3))
    hint = f"; did you mean {near}?" if near else ""
    raise LookupError(f"no document {key!r} in the bibliography{hint}")


def _parameters(function: Callable[..., object]) -> tuple[Parameter, ...]:
    """Read names and units from the Parameters section of a numpydoc docstring."""
    text = inspect.getdoc(function) or ""
    _, _, section = text.partition("Parameters\n----------\n")
    section = section.partition("\n\n")[0]
    found: list[Parameter] = []
    for entry in re.split(r"\n(?=\S)", section):
        heading = _PARAMETER.match(entry)
        unit = _UNIT.search(entry)
        if heading and unit:
            found += [Parameter(name, unit[1]) for name in heading["names"].split(", ")]
    return tuple(found)


_read = partial(Document, source_class=SourceClass.READ)
_second_hand = partial(Document, source_class=SourceClass.SECOND_HAND)
_memory = partial(Document, source_class=SourceClass.MEMORY)
_practice = partial(Document, source_class=SourceClass.COMMON_PRACTICE)
_library = partial(Document, source_class=SourceClass.LIBRARY)
_community = partial(Document, source_class=SourceClass.READ, community=True)

# --- No document
COMMON_PRACTICE = _practice("COMMON_PRACTICE", "Common practice")
OWN_COMPUTATION = Document("OWN_COMPUTATION", "Own computation", SourceClass.OWN_COMPUTATION)
INVENTED = Document("INVENTED", "Invented for the demo aircraft", SourceClass.INVENTED)
RECALLED = _memory("RECALLED", "Recalled, no document at hand")

# --- United States: regulations
CFR_14_23_867 = _read("CFR_14_23_867", "14 CFR 23.867, text before 2017")
CFR_14_23_1327 = _second_hand("CFR_14_23_1327", "14 CFR 23.1327, older text", note="parallel rule")
CFR_14_43_A = _read("CFR_14_43_A", "14 CFR part 43 Appendix A")
CFR_14_43_B = _read("CFR_14_43_B", "14 CFR part 43 Appendix B")
CFR_14_43_F = _read("CFR_14_43_F", "14 CFR part 43 Appendix F", note="(d) to (j)")
CFR_14_43_F_C = _second_hand("CFR_14_43_F_C", "14 CFR part 43 Appendix F (c)", note="two summaries")
CFR_14_91_171 = _read("CFR_14_91_171", "14 CFR 91.171")
CFR_14_91_207 = _read("CFR_14_91_207", "14 CFR 91.207", note="(d)")
CFR_14_91_207_C = _second_hand("CFR_14_91_207_C", "14 CFR 91.207 (c)")
CFR_14_91_225 = _second_hand("CFR_14_91_225", "14 CFR 91.225 and 91.227", note="summary")
CFR_14_91_407 = _second_hand("CFR_14_91_407", "14 CFR 91.407")
CFR_14_91_413 = _read("CFR_14_91_413", "14 CFR 91.413")
CFR_47_1_1307 = _second_hand("CFR_47_1_1307", "47 CFR 1.1307")
CFR_47_1_1310 = _read("CFR_47_1_1310", "47 CFR 1.1310")
CFR_47_2_1091 = _read("CFR_47_2_1091", "47 CFR 2.1091")
CFR_47_87_131 = _read("CFR_47_87_131", "47 CFR 87.131, text of November 2024")
CFR_47_87_139 = _read("CFR_47_87_139", "47 CFR 87.139, text of October 2017")
CFR_47_87_197 = _second_hand("CFR_47_87_197", "47 CFR 87.197")
CFR_47_87_199 = _read("CFR_47_87_199", "47 CFR 87.199")
CFR_47_87_475 = _read("CFR_47_87_475", "47 CFR 87.475")
FAA_AD_5G = _read("FAA_AD_5G", "FAA airworthiness directives 2021-23-12, 2023-10-02, 2026-13162")

# --- United States: advisory
AC_20_138 = _memory("AC_20_138", "FAA AC 20-138 series")
AC_20_165B = _memory("AC_20_165B", "FAA AC 20-165B")
AC_43_13_1B = _read("AC_43_13_1B", "FAA AC 43.13-1B CHG 1", note="copy, one page a file")
AC_43_13_1B_QUOTED = _second_hand("AC_43_13_1B_QUOTED", "FAA AC 43.13-1B CHG 1, as quoted")
AC_43_13_1B_RECALLED = _memory("AC_43_13_1B_RECALLED", "FAA AC 43.13-1B CHG 1, as remembered")
AC_43_13_2A = _read("AC_43_13_2A", "FAA AC 43.13-2A (1977)", note="paragraphs 36 to 38")
AC_43_13_2B = _read("AC_43_13_2B", "FAA AC 43.13-2B", note="paragraph 1 only; reported replaced")
AC_43_13_2B_CH3 = _memory("AC_43_13_2B_CH3", "FAA AC 43.13-2B chapter 3, as remembered")
AC_43_210A = _read("AC_43_210A", "FAA AC 43-210A", note="opening part")
AC_91_44A = _second_hand("AC_91_44A", "FAA AC 91-44A")
AIM_6_2_5 = _second_hand("AIM_6_2_5", "FAA Aeronautical Information Manual 6-2-5")
FAA_H_8083_1B = _memory("FAA_H_8083_1B", "FAA-H-8083-1B, weight and balance handbook")
FAA_H_8083_31B = _second_hand("FAA_H_8083_31B", "FAA-H-8083-31B, airframe handbook")
FAA_AMT_HANDBOOK = _memory("FAA_AMT_HANDBOOK", "FAA mechanics' handbooks, as remembered")
FAA_PHAK = _read("FAA_PHAK", "FAA pilot's handbook of aeronautical knowledge, ch. 9")
FAA_ORDER_8300_16 = _read("FAA_ORDER_8300_16", "FAA Order 8300.16 job aid", note="opening part")
FAA_PAPR_GUIDE = _read("FAA_PAPR_GUIDE", "FAA public ADS-B performance report user's guide")
OET_65 = _second_hand("OET_65", "FCC OET Bulletin 65 (1997)", note="through a worked example")

# --- International and other national rules
ICAO_ANNEX_10_V1 = _read("ICAO_ANNEX_10_V1", "ICAO Annex 10 Volume I, 2006 edition")
ICAO_ANNEX_10_V3 = _read("ICAO_ANNEX_10_V3", "ICAO Annex 10 Volume III, 2007 edition")
ICAO_ANNEX_10_V4 = _read("ICAO_ANNEX_10_V4", "ICAO Annex 10 Volume IV, 2007 edition")
ICAO_ANNEX_10_V5 = _read("ICAO_ANNEX_10_V5", "ICAO Annex 10 Volume V")
ICAO_ANNEX_10_RECALLED = _memory("ICAO_ANNEX_10_RECALLED", "ICAO Annex 10, as remembered")
ICAO_DOC_9871 = _read("ICAO_DOC_9871", "ICAO Doc 9871", note="page of Table A-2-34")
CHH_ELS_010 = _read("CHH_ELS_010", "CHH.ELS.010, text parallel to CS-ACNS.D.ELS.010")
NZ_CAR_43_E = _read("NZ_CAR_43_E", "New Zealand CAR part 43 Appendix E")
CAA_NZ_C4 = _second_hand("CAA_NZ_C4", "CAA New Zealand Leaflet C.4, quoted by TAIC")
GBT_45435 = _read("GBT_45435", "GB/T 45435-2025, airborne BeiDou equipment", note="damaged")
EUROCONTROL_AIXM = _read("EUROCONTROL_AIXM", "Eurocontrol AIXM coding rules")
ECO_HANDBOOK = _read("ECO_HANDBOOK", "ECO handbook on interference, glossary")
COSPAS_SARSAT_406 = _read("COSPAS_SARSAT_406", "Cospas-Sarsat page on 406 MHz beacons (2009)")
COSPAS_SARSAT_T001 = _memory("COSPAS_SARSAT_T001", "Cospas-Sarsat C/S T.001")
ITU_P525 = _second_hand("ITU_P525", "Recommendation ITU-R P.525")
ITU_P526 = _memory("ITU_P526", "Recommendation ITU-R P.526", note="formula in public code too")
ITU_RADIO_REGULATIONS = _memory("ITU_RADIO_REGULATIONS", "ITU Radio Regulations")
IS_GPS_200 = _memory("IS_GPS_200", "IS-GPS-200")
IS_GPS_705 = _memory("IS_GPS_705", "IS-GPS-705")
RTCA_MOPS = _memory("RTCA_MOPS", "RTCA minimum performance standards, as remembered")
IMO_SN_227 = _second_hand("IMO_SN_227", "IMO SN/Circ.227", note="third hand")

# --- Standards of the trade
AS50881 = _second_hand("AS50881", "SAE AS50881", note="as reported")
ASTM_F2639 = _second_hand("ASTM_F2639", "ASTM F2639-18", note="as reported")
FED_STD_1037C = _memory("FED_STD_1037C", "FED-STD-1037C, telecommunications glossary")
IEC_60050 = _read("IEC_60050", "IEC 60050, electrotechnical vocabulary", note="one definition")
MIL_B_5087B = _memory("MIL_B_5087B", "MIL-B-5087B")
MIL_C_17_28C = _second_hand("MIL_C_17_28C", "MIL-C-17/28C and /74C", note="mailing list, 2004")
MIL_DTL_17 = _memory("MIL_DTL_17", "MIL-DTL-17 part numbers, as remembered")
MIL_PRF_39012 = _read("MIL_PRF_39012", "MIL-PRF-39012E", note="paragraph 4.6.24")
MIL_PRF_39012_SHEETS = _memory("MIL_PRF_39012_SHEETS", "MIL-PRF-39012 slash sheets")
MIL_STD_464 = _memory("MIL_STD_464", "MIL-STD-464")
NASA_8739_4 = _second_hand("NASA_8739_4", "NASA-STD-8739.4", note="quoted on a NASA page")
NBS_HANDBOOK_100 = _second_hand("NBS_HANDBOOK_100", "NBS Handbook 100, copper wire tables")
SAE_ARP5414 = _memory("SAE_ARP5414", "SAE ARP5414")
SI_BROCHURE = _memory("SI_BROCHURE", "The International System of Units, defining constants")

# --- Textbooks, courses, papers
POZAR_4E = _second_hand("POZAR_4E", "Pozar, Microwave Engineering, 4th ed.", note="page digest")
BALANIS_4E = _memory("BALANIS_4E", "Balanis, Antenna Theory, 4th ed.")
KRAUS = _second_hand("KRAUS", "Kraus, Antennas", note="solutions listing")
TEXTBOOK_ANTENNAS = _memory("TEXTBOOK_ANTENNAS", "Antenna theory")
TEXTBOOK_NOISE = _memory("TEXTBOOK_NOISE", "Noise of receivers")
TEXTBOOK_SURVEYING = _memory("TEXTBOOK_SURVEYING", "Circular curves in route surveying")
TEXTBOOK_TRANSMISSION_LINE = _memory("TEXTBOOK_TRANSMISSION_LINE", "Transmission-line theory")
SCILAB_COMPANION = _read("SCILAB_COMPANION", "Scilab textbook companion listings")
NOISE_SOLUTION = _read("NOISE_SOLUTION", "Textbook solution page, noise figure to temperature")
UNIVERSITY_GNSS = _read("UNIVERSITY_GNSS", "University technology handbook, GNSS link")
COURSE_GPS_LNA = _read("COURSE_GPS_LNA", "Published course exercise, GPS amplifier and 20 m cable")
COURSE_LINK = _read("COURSE_LINK", "Course notes with path-loss and EIRP answers")
HAUSMAN = _read("HAUSMAN", "Hausman, Microwave Journal, intermodulation products")
PATHAK_WANG_1981 = _memory("PATHAK_WANG_1981", "Pathak and Wang, coupling on convex surfaces, 1981")
SHADING_FACTOR = _memory("SHADING_FACTOR", "Shading factor of a fuselage, constants as remembered")
ION_1989 = _second_hand("ION_1989", "Johannessen, Gale, Asbury, ION 1989", note="abstract")
NLR_TP_2000_226 = _second_hand("NLR_TP_2000_226", "NLR-TP-2000-226", note="abstract")

# --- Makers' texts, none of them avionics
ANTENNA_NOTE = _read("ANTENNA_NOTE", "Technical note of an antenna maker, cable attenuation")
CATV_TIP = _read("CATV_TIP", "Cable-television tech tip, attenuation versus temperature")
GNSS_RECEIVER_MANUAL = _read("GNSS_RECEIVER_MANUAL", "GNSS receiver-board manual")
LAND_MOBILE_GUIDE = _read("LAND_MOBILE_GUIDE", "Land-mobile repeater training guide, Appendix H")
POWER_SENSOR_MANUAL = _read("POWER_SENSOR_MANUAL", "RF power-sensor manual")
SHIP_AIS_MANUAL = _read("SHIP_AIS_MANUAL", "Ship AIS installation manual", note="excerpt")
SWR_METER_MANUAL = _read("SWR_METER_MANUAL", "SWR-meter user manual, Appendix C")
TEST_SET_DATA = _read("TEST_SET_DATA", "RF test-set technical data, distance to fault")
TIMING_RECEIVER_GUIDE = _read("TIMING_RECEIVER_GUIDE", "GPS timing-receiver user guide (2005)")
ASSEMBLY_SHEET_141 = _second_hand("ASSEMBLY_SHEET_141", "Maker's sheet, 0.141 in flexible assembly")
CABLE_SHEET_RG58C = _second_hand("CABLE_SHEET_RG58C", "Cable maker's sheet RG-58C/U to 5 GHz")
CABLE_SHEET_RG58C_2026 = _second_hand("CABLE_SHEET_RG58C_2026", "Cable maker's sheet, 2026-02-20")
CABLE_SHEET_RG142B = _second_hand("CABLE_SHEET_RG142B", "Cable maker's sheet RG-142B/U, uncertain")
CABLE_SHEET_RG142B_2011 = _second_hand("CABLE_SHEET_RG142B_2011", "RG-142B/U sheet, 2011-09-29")
CABLE_SHEET_RG174A = _second_hand("CABLE_SHEET_RG174A", "Cable maker's sheet RG-174A/U")
CABLE_SHEET_RG213 = _second_hand("CABLE_SHEET_RG213", "Cable maker's sheet RG-213/U")
CABLE_SHEET_RG223 = _second_hand("CABLE_SHEET_RG223", "Reseller's sheet RG-223/U, inconsistent")
CABLE_SHEET_RG316 = _second_hand("CABLE_SHEET_RG316", "Cable maker's sheet RG-316/U of 2020-10-14")

# --- Web references and community texts: they support, they do not carry
RF_REFERENCE = _read("RF_REFERENCE", "RF reference page, VSWR mismatch errors")
RF_ESSENTIALS = _read("RF_ESSENTIALS", "RF Essentials, web reference")
MICROWAVE_ARTICLE = _read("MICROWAVE_ARTICLE", "Microwave Journal, article 2644, connectors")
ANTENNA_WIKI = _practice("ANTENNA_WIKI", "Builder community wiki, antenna page", community=True)
AIR_SHOWER_CODE = _community("AIR_SHOWER_CODE", "Calibration code of a radio experiment")
AMATEUR_BENCH = _community("AMATEUR_BENCH", "Amateur bench measurement of short cables")
AMATEUR_CABLE_SHEET = _community("AMATEUR_CABLE_SHEET", "Amateur-radio coaxial cable data sheet")
AMATEUR_CABLE_WIKI = _community("AMATEUR_CABLE_WIKI", "Amateur-radio wiki, coaxial cables")
AMATEUR_FIELD_NOTE = _community("AMATEUR_FIELD_NOTE", "Amateur field note, RG-58A/U at 432 MHz")
AMATEUR_HANDBOOK_TABLE = _memory("AMATEUR_HANDBOOK_TABLE", "Handbook table of cables")
LOFTING_ARTICLE = _community("LOFTING_ARTICLE", "Free encyclopaedia, lofting coordinates")
CABLE_ENCYCLOPAEDIA = _community("CABLE_ENCYCLOPAEDIA", "Free encyclopaedia, coaxial cables")
COAX_FORMULA_SHEET = _community("COAX_FORMULA_SHEET", "Coax formula sheet in inch units")
DTF_NOTE = _community("DTF_NOTE", "Radio engineering note on distance-to-fault range")
GERMAN_CABLE_TABLE = _community("GERMAN_CABLE_TABLE", "German table RG-174, RG-58, RG-213")
K1_K2_PAGE = _community("K1_K2_PAGE", "Web page on attenuation from two constants")
MAILING_LIST_2010 = _community("MAILING_LIST_2010", "Mailing list 2010, 200 ft of RG-213 measured")
REFLECTED_POWER_TEXT = _community("REFLECTED_POWER_TEXT", "Text on reflected power and line loss")
RG58_LIST = _community("RG58_LIST", "List of generic RG-58 losses (2020)")
SAILING_FORUM = _community("SAILING_FORUM", "Sailing forum, VHF example")
SKIN_DEPTH_TABLE = _community("SKIN_DEPTH_TABLE", "Skin-depth table")
SWR_TABLE = _community("SWR_TABLE", "Amateur-radio table of SWR, return loss and mismatch loss")

# --- Open libraries used as oracles
SCIKIT_RF = _library("SCIKIT_RF", "scikit-rf and its documentation")
SCIPY_DOCS = _library("SCIPY_DOCS", "SciPy documentation")
NEC2 = _library("NEC2", "NEC2, method of moments")

DOCUMENTS: dict[str, Document] = {
    document.key: document
    for document in list(globals().values())
    if isinstance(document, Document)
}
