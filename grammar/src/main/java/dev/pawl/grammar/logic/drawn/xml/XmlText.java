package dev.pawl.grammar.logic.drawn.xml;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import java.io.StringReader;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.function.Consumer;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/**
 * Reads XML that nobody vouches for. A document type, an entity of its own, more depth or size than any project has:
 * each ends the reading with a message at its place. Nothing is ever fetched.
 */
public final class XmlText {

  /** Characters of the largest text that is read. */
  public static final int LARGEST = 64_000_000;

  /** Elements within one another. */
  public static final int DEEPEST = 100;

  /** Elements in all. */
  public static final int MOST = 3_000_000;

  private final Source source;
  private final String text;
  private final Marks marks;

  private XmlText(Source source) {
    this.source = source;
    this.text = source.text();
    this.marks = new Marks(source);
  }

  /** Whether a text is XML rather than Structured Text, which never begins with an angle bracket. */
  public static boolean is(Source source) {
    String text = source.text();
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c != '\uFEFF' && !Character.isWhitespace(c)) {
        return c == '<';
      }
    }
    return false;
  }

  /** The outermost element without what is in it; nothing where there is none that could be read. */
  public static Optional<XmlNode> root(Source source) {
    if (new Marks(source).documentType().isPresent()) {
      return Optional.empty();
    }
    try {
      String plain = source.text().startsWith("\uFEFF") ? source.text().substring(1) : source.text();
      XMLStreamReader reader = factory().createXMLStreamReader(new StringReader(plain));
      while (reader.hasNext()) {
        if (reader.next() == XMLStreamConstants.START_ELEMENT) {
          return Optional.of(new XmlNode(reader.getLocalName(), reader.getNamespaceURI() == null ? ""
              : reader.getNamespaceURI(), attributes(reader), new Position(source.name(), 1, 1, 1)));
        }
      }
      return Optional.empty();
    } catch (XMLStreamException e) {
      return Optional.empty();
    }
  }

  /** The outermost element; nothing after a message. */
  public static Optional<XmlNode> read(Source source, Consumer<Diagnostic> diagnostics) {
    if (source.text().length() > LARGEST) {
      diagnostics.accept(Diagnostic.error(new Position(source.name(), 1, 1, 1), "the project has "
          + source.text().length() + " characters; at most " + LARGEST + " are read", "export it in several files"));
      return Optional.empty();
    }
    XmlText reader = new XmlText(source);
    try {
      return Optional.of(reader.read());
    } catch (Refused e) {
      diagnostics.accept(e.diagnostic);
    } catch (XMLStreamException e) {
      diagnostics.accept(Diagnostic.error(reader.place(e), "this is no well-formed XML: " + reason(e),
          "export the project again, or mend it by hand"));
    }
    return Optional.empty();
  }

  /** What ends the reading. */
  private static final class Refused extends RuntimeException {

    private static final long serialVersionUID = 1;
    private final transient Diagnostic diagnostic;

    Refused(Diagnostic diagnostic) {
      super(diagnostic.message(), null, false, false);
      this.diagnostic = diagnostic;
    }
  }

  private Position place(XMLStreamException e) {
    return e.getLocation() == null ? new Position(source.name(), 1, 1, 1)
        : new Position(source.name(), Math.max(1, e.getLocation().getLineNumber()),
            Math.max(1, e.getLocation().getColumnNumber()), 1);
  }

  /** The reason without the place that the parser writes before it. */
  private static String reason(XMLStreamException e) {
    String message = e.getMessage() == null ? "" : e.getMessage();
    int start = message.indexOf("Message: ");
    String reason = start < 0 ? message : message.substring(start + "Message: ".length());
    return reason.lines().findFirst().orElse("").replaceFirst("^[^ ]*#[^ ]*$", "what stands here is out of place");
  }

  private static XMLInputFactory factory() {
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_REPLACING_ENTITY_REFERENCES, false);
    factory.setProperty("javax.xml.stream.isCoalescing", false);
    factory.setXMLResolver((publicId, systemId, base, namespace) -> {
      throw new XMLStreamException("an external reference");
    });
    return factory;
  }

  private XmlNode read() throws XMLStreamException {
    // The parser is not asked to read one: it says nothing useful of one that is malformed.
    marks.documentType().ifPresent(place -> {
      throw new Refused(Diagnostic.error(place,
          "a document type (<!DOCTYPE) is refused: it can define entities and refer to other files",
          "remove it; the exchange format has none"));
    });
    String plain = text.startsWith("\uFEFF") ? text.substring(1) : text;
    XMLStreamReader reader = factory().createXMLStreamReader(new StringReader(plain));
    Deque<XmlNode> open = new ArrayDeque<>();
    XmlNode root = null;
    int elements = 0;
    while (reader.hasNext()) {
      switch (reader.next()) {
        case XMLStreamConstants.START_ELEMENT -> {
          Position position = marks.startTag(nameLength(reader), reader.getAttributeCount()
              + reader.getNamespaceCount());
          if (open.size() >= DEEPEST) {
            throw new Refused(Diagnostic.error(position, "elements lie in one another more than " + DEEPEST + " deep",
                "no exported project needs that"));
          }
          if (++elements > MOST) {
            throw new Refused(Diagnostic.error(position, "the project has more than " + MOST + " elements",
                "export it in several files"));
          }
          XmlNode node = new XmlNode(reader.getLocalName(), reader.getNamespaceURI() == null ? ""
              : reader.getNamespaceURI(), attributes(reader), position);
          node.beginsAt(marks.here());
          if (open.isEmpty()) {
            root = node;
          } else {
            open.peek().add(node);
            if (node.name().equals("br")) {
              open.peek().add(String.valueOf(XmlNode.BREAK));
            }
          }
          open.push(node);
        }
        case XMLStreamConstants.END_ELEMENT -> open.pop();
        case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA, XMLStreamConstants.SPACE -> {
          if (!open.isEmpty()) {
            if (!open.peek().hasText() && reader.getEventType() != XMLStreamConstants.SPACE) {
              marks.textAfterTag().ifPresent(open.peek()::beginsAt);
            }
            open.peek().add(reader.getText());
          }
        }
        case XMLStreamConstants.ENTITY_REFERENCE -> throw new Refused(Diagnostic.error(new Position(source.name(),
            Math.max(1, reader.getLocation().getLineNumber()), 1, 1), "the entity &" + reader.getLocalName()
            + "; is refused: only those of XML itself are read", "write the characters that it stands for"));
        default -> { }
      }
    }
    return root;
  }

  private static int nameLength(XMLStreamReader reader) {
    String prefix = reader.getPrefix();
    return reader.getLocalName().length() + (prefix == null || prefix.isEmpty() ? 0 : prefix.length() + 1);
  }

  /** Names without a prefix and values in turns. */
  private static String[] attributes(XMLStreamReader reader) {
    String[] attributes = new String[2 * reader.getAttributeCount()];
    for (int i = 0; i < attributes.length; i += 2) {
      attributes[i] = reader.getAttributeLocalName(i / 2);
      attributes[i + 1] = reader.getAttributeValue(i / 2);
    }
    return attributes;
  }
}
