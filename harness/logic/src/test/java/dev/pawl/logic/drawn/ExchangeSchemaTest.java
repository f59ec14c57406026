package dev.pawl.logic.drawn;

import static org.assertj.core.api.Assertions.assertThatCode;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.StringReader;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import javax.xml.XMLConstants;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.Schema;
import javax.xml.validation.SchemaFactory;
import org.junit.jupiter.api.Test;
import org.xml.sax.SAXException;

/**
 * The projects that these tests run are valid by the schemas of the exchange formats (tc6_xml_v201.xsd and
 * IEC61131_10_Ed1_0.xsd), which are published without a licence that would let them be kept here: whoever has them says
 * where they lie.
 */
class ExchangeSchemaTest {

  @Test
  void whatIsRunIsValid() throws SAXException {
    Schema schema = schema("pawl.tc6.schema", "tc6_xml_v201.xsd");
    older().forEach(project -> valid(schema, project));
  }

  /** Without jumps of charts: the schema leaves those to a recommendation. */
  @Test
  void soIsWhatIsRunInTheNewerFormat() throws SAXException {
    Schema schema = schema("pawl.iec.schema", "IEC61131_10_Ed1_0.xsd");
    NewerProjectTest.all().forEach(project -> valid(schema, project));
    older().filter(NewerXml::has).map(NewerXml::plain).forEach(project -> valid(schema, project));
  }

  private static Stream<String> older() {
    return Stream.of(ProjectTest.older().stream(), NetworkTablesTest.cases().map(NetworkTablesTest::project),
        ChartTablesTest.all().map(ChartTablesTest::project),
        IntStream.range(0, 1500).mapToObj(seed -> RandomNetworksTest.project(new RandomNetworks(seed))),
        IntStream.range(0, 400).mapToObj(seed -> RandomChartsTest.project(new RandomCharts(seed)))).flatMap(it -> it);
  }

  private static Schema schema(String property, String name) throws SAXException {
    String path = System.getProperty(property, "");
    assumeTrue(!path.isEmpty(), "-D" + property + "=FILE does not say where " + name + " lies");
    return SchemaFactory.newInstance(XMLConstants.W3C_XML_SCHEMA_NS_URI).newSchema(new File(path));
  }

  private static void valid(Schema schema, String project) {
    assertThatCode(() -> schema.newValidator().validate(new StreamSource(new StringReader(project)))).as(project)
        .doesNotThrowAnyException();
  }
}
