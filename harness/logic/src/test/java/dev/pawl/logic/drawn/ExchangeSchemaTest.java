package dev.pawl.logic.drawn;

import static org.assertj.core.api.Assertions.assertThatCode;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import javax.xml.XMLConstants;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.Schema;
import javax.xml.validation.SchemaFactory;
import org.junit.jupiter.api.Test;
import org.xml.sax.SAXException;

/**
 * The projects that these tests run are valid by the schema of the exchange format (tc6_xml_v201.xsd), which is
 * published without a licence that would let it be kept here: whoever has it says where it lies.
 */
class ExchangeSchemaTest {

  private static final String SCHEMA = "pawl.tc6.schema";

  @Test
  void whatIsRunIsValid() throws SAXException {
    String path = System.getProperty(SCHEMA, "");
    assumeTrue(!path.isEmpty(), "-D" + SCHEMA + "=FILE does not say where tc6_xml_v201.xsd lies");
    Schema schema = SchemaFactory.newInstance(XMLConstants.W3C_XML_SCHEMA_NS_URI).newSchema(new File(path));
    List<String> projects = new ArrayList<>(ProjectTest.older());
    NetworkTablesTest.cases().map(NetworkTablesTest::project).forEach(projects::add);
    ChartTablesTest.all().map(ChartTablesTest::project).forEach(projects::add);
    IntStream.range(0, 1500).mapToObj(seed -> RandomNetworksTest.project(new RandomNetworks(seed)))
        .forEach(projects::add);
    for (String project : projects) {
      assertThatCode(() -> schema.newValidator().validate(new StreamSource(new StringReader(project)))).as(project)
          .doesNotThrowAnyException();
    }
  }
}
