package dev.pawl.grammar.logic.drawn.xml;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Elements and their texts have the places at which they begin, whatever stands in and between the tags. */
class XmlTextTest {

  private static final List<String> BETWEEN = List.of("", " ", "\n", "\r\n", "\n\n  ", "<!-- <a b=\"> -->",
      "<?p <a> ?>", "<![CDATA[<a b='>]]>", "text = \"quoted\"", "&lt;a&gt;", "ä€\n");
  private static final List<String> VALUES = List.of("", "v", "a>b", "=", "a = 'b'", "a\nb", "&gt;", "/>", "€");
  private static final List<String> NAMES = List.of("a", "long_name", "p:a", "ä");

  private final StringBuilder text = new StringBuilder();
  private final List<Position> places = new ArrayList<>();
  private SplittableRandom random;

  @Test
  void randomElementsHaveThePlacesAtWhichTheyWereWritten() {
    for (int seed = 0; seed < 500; seed++) {
      random = new SplittableRandom(seed);
      text.setLength(0);
      places.clear();
      text.append(seed % 2 == 0 ? "<?xml version=\"1.0\"?>\n<!-- <none> -->" : "\uFEFF");
      element(0);
      List<Diagnostic> told = new ArrayList<>();
      Optional<XmlNode> root = XmlText.read(new Source("f", text.toString()), told::add);
      assertThat(told).as(text.toString()).isEmpty();
      List<Position> found = new ArrayList<>();
      collect(root.orElseThrow(), found);
      assertThat(found).as("seed " + seed + ": " + text).isEqualTo(places);
    }
  }

  private String one(List<String> all) {
    return all.get(random.nextInt(all.size()));
  }

  private Position here(int length) {
    int line = (int) text.chars().filter(c -> c == '\n').count() + 1;
    return new Position("f", line, text.length() - text.lastIndexOf("\n"), length);
  }

  private void element(int depth) {
    String name = one(NAMES);
    places.add(here(name.length() + 1));
    text.append('<').append(name);
    if (depth == 0) {
      text.append(" xmlns:p = 'urn:a>b'");
    }
    int attributes = random.nextInt(4);
    for (int i = 0; i < attributes; i++) {
      String quote = random.nextBoolean() ? "\"" : "'";
      text.append(random.nextBoolean() ? " " : "\n ").append(random.nextBoolean() ? "" : "p:").append("b").append(i)
          .append(random.nextBoolean() ? "=" : " =\n").append(quote)
          .append(one(VALUES).replace(quote, "")).append(quote);
    }
    int children = depth > 4 ? 0 : random.nextInt(4);
    if (children == 0 && random.nextBoolean()) {
      text.append(random.nextBoolean() ? "/>" : " />");
      return;
    }
    text.append('>');
    Position start = here(1);
    String before = one(BETWEEN);
    if (!before.isEmpty() && before.charAt(0) != '<') {
      places.add(start);
    }
    for (int i = 0; i < children; i++) {
      text.append(i == 0 ? before : one(BETWEEN));
      element(depth + 1);
    }
    text.append(children == 0 ? before : one(BETWEEN)).append("</").append(name)
        .append(random.nextBoolean() ? ">" : " >");
  }

  private void collect(XmlNode node, List<Position> found) {
    found.add(node.position());
    if (places.size() > found.size() && node.hasText() && places.get(found.size()).length() == 1) {
      found.add(node.textPosition());
    }
    node.children().forEach(child -> collect(child, found));
  }

  @Test
  void attributesAndTextAreThoseOfTheElement() {
    XmlNode root = XmlText.read(new Source("f", "<a b=' 1 ' p:c='&gt;' xmlns:p='urn:p'>x<d/>y<![CDATA[<z>]]></a>"),
        told -> { throw new AssertionError(told); }).orElseThrow();
    assertThat(root.attribute("b")).contains(" 1 ");
    assertThat(root.word("b")).isEqualTo("1");
    assertThat(root.word("c")).isEqualTo(">");
    assertThat(root.attribute("d")).isEmpty();
    assertThat(root.word("d")).isEmpty();
    assertThat(root.text()).isEqualTo("xy<z>");
    assertThat(root.textPosition()).isEqualTo(new Position("f", 1, 39, 1));
    assertThat(root.children("d")).singleElement().extracting(XmlNode::text).isEqualTo("");
  }

  @Test
  void anythingGivesARootOrAMessage() {
    List<String> texts = List.of("<!DOCTYPE a [<!ELEMENT a ANY> <!ENTITY x \"y\">]><a>&x;</a>",
        "<?p?> <!-- <!DOCTYPE --> <!DOCTYPE a SYSTEM \"f\" [ <!-- c --> ]><a/>",
        "<?xml version=\"1.0\"?><a b='1'><!-- c --><?p i?><![CDATA[x]]>t &lt; &#65; </a><!-- x -->");
    List<String> pieces = List.of("", "<", "&", "\0", "]]>", "%x;", "<!", "<!DOCTYPE a [", "\uFFFF", "&#0;", "\uD800");
    for (String whole : texts) {
      for (int i = 0; i <= whole.length(); i++) {
        for (int end : List.of(i, Math.min(i + 2, whole.length()), whole.length())) {
          for (String piece : pieces) {
            String changed = whole.substring(0, i) + piece + whole.substring(end);
            List<Diagnostic> told = new ArrayList<>();
            assertThat(XmlText.read(new Source("f", changed), told::add).isPresent()).as(changed)
                .isEqualTo(told.isEmpty());
          }
        }
      }
    }
  }

  @ParameterizedTest
  @CsvSource(textBlock = """
      <a>,                                   this is no well-formed XML
      <a b=1/>,                              this is no well-formed XML
      <a b='1' b='2'/>,                      this is no well-formed XML
      '<!DOCTYPE a [<!EN',                   a document type (<!DOCTYPE) is refused
      '<!DOCTYPE a><a/>',                    a document type (<!DOCTYPE) is refused
      '<!DOCTYPE a SYSTEM "file:///x"><a/>', a document type (<!DOCTYPE) is refused
      <a>&none;</a>,                         the entity &none; is refused
      """)
  void whatIsNotReadIsToldAtItsPlace(String text, String message) {
    List<Diagnostic> told = new ArrayList<>();
    assertThat(XmlText.read(new Source("f", text), told::add)).isEmpty();
    assertThat(told).singleElement().satisfies(each -> {
      assertThat(each.message()).startsWith(message);
      assertThat(each.position().line()).isEqualTo(1);
    });
  }
}
