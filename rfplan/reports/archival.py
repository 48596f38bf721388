# SPDX-License-Identifier: Apache-2.0
"""What a PDF tells of itself so that an archive can keep it: PDF/A-2b, its title, day and maker."""

from __future__ import annotations

from datetime import datetime
from xml.sax.saxutils import escape

from rfplan import __version__

LEVEL = "PDF/A-2B"
"""ISO 19005-2, level B: fonts and what colours mean are inside, nothing runs or is fetched."""

_ABOUT = """\
<x:xmpmeta xmlns:x="adobe:ns:meta/">
  <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
    <rdf:Description rdf:about=""
        xmlns:dc="http://purl.org/dc/elements/1.1/"
        xmlns:xmp="http://ns.adobe.com/xap/1.0/"
        xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/">
      <pdfaid:part>2</pdfaid:part>
      <pdfaid:conformance>B</pdfaid:conformance>
      <dc:title><rdf:Alt><rdf:li xml:lang="x-default">{title}</rdf:li></rdf:Alt></dc:title>
      <xmp:CreatorTool>rfplan {version}</xmp:CreatorTool>
      <xmp:CreateDate>{day}</xmp:CreateDate>
      <xmp:ModifyDate>{day}</xmp:ModifyDate>
    </rdf:Description>
  </rdf:RDF>
</x:xmpmeta>"""


def about(title: str, made_on: datetime) -> str:
    """Return what a document tells of itself; the day is that of its sheets, never of a clock."""
    day = made_on.isoformat(timespec="seconds")
    return _ABOUT.format(title=escape(title), version=__version__, day=day)
