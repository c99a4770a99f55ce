"""What a report says of itself to programs: the XMP packet that PDF/A-3B asks for, without the hour it was made."""

from datetime import datetime
from xml.sax.saxutils import escape

MAKER = "Throatmark"


def xmp(title: str, created: datetime) -> str:
    """Return the XMP metadata of a PDF/A-3B report; its dates are the report's own, never the clock's."""
    when = created.isoformat(timespec="seconds")
    return f"""<x:xmpmeta xmlns:x="adobe:ns:meta/">
  <rdf:RDF
    xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"
    xmlns:dc="http://purl.org/dc/elements/1.1/"
    xmlns:xmp="http://ns.adobe.com/xap/1.0/"
    xmlns:pdf="http://ns.adobe.com/pdf/1.3/"
    xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/">
    <rdf:Description rdf:about="" xmp:CreatorTool="{MAKER}" xmp:CreateDate="{when}" xmp:ModifyDate="{when}"
        xmp:MetadataDate="{when}" pdf:Producer="{MAKER}">
      <pdfaid:part>3</pdfaid:part>
      <pdfaid:conformance>B</pdfaid:conformance>
      <dc:title><rdf:Alt><rdf:li xml:lang="x-default">{escape(title)}</rdf:li></rdf:Alt></dc:title>
    </rdf:Description>
  </rdf:RDF>
</x:xmpmeta>"""
