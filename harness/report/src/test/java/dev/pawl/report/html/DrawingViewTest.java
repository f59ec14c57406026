package dev.pawl.report.html;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.report.SampleRide;
import dev.pawl.report.model.Drawing;
import dev.pawl.report.model.Drawing.Box;
import dev.pawl.report.model.Drawing.Port;
import dev.pawl.report.model.Drawing.Shape;
import dev.pawl.report.model.Drawing.Wire;
import dev.pawl.report.model.TimeBase;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What is drawn of a network or chart, and what is said of it. */
class DrawingViewTest {

  private static String drawn(Drawing drawing) {
    Markup html = new Markup();
    new DrawingView(html, drawing, TimeBase.START).write();
    return html.take();
  }

  @Test
  void itSaysWhereItIsAndWhenItWasEvaluated() {
    assertThat(drawn(SampleRide.network())).contains("What wrote lift_run: Lift, network 3, with the values of its last"
        + " evaluation by then, at 74.750 s. Thick is TRUE; it goes on at the letters.");
  }

  @Test
  void whoDoesNotSeeItHearsEveryValue() {
    assertThat(drawn(SampleRide.network())).contains("aria-label=\"What wrote lift_run: Lift, network 3. contact"
        + " train_near, TRUE, gives TRUE; contact a_restart_by_hand_of_the_operator_at_the_panel, rises, FALSE, gives"
        + " FALSE; contact estop_latched, NOT, FALSE, gives TRUE; input T#500ms, gives T#500ms; block TON settle, Q"
        + " TRUE, ET 500 ms; coil lift_run, set, TRUE.\"");
    assertThat(drawn(SampleRide.chart())).contains("step Release, active for 250 ms, N gate_release writes;"
        + " transition base_flag, not met, base_flag FALSE;");
  }

  @Test
  void onlyWhatIsTrueIsThick() {
    Drawing rung = new Drawing("Main, network 1", "q", 0, List.of(new Box(Shape.CONTACT, "a", "", "", "FALSE", false,
        List.of(new Port("", false, "")), List.of(new Port("", false, "FALSE"))), new Box(Shape.RAIL, "", "", "", "",
        false, List.of(), List.of())), List.of(new Wire(1, 0, 0, 0, "FALSE", false)));
    assertThat(drawn(rung).split("\"flow\"")).as("the rail").hasSize(2);
    assertThat(drawn(rung)).contains(">FALSE</text>");
  }

  private static Drawing rung(int contacts) {
    List<Box> boxes = new ArrayList<>(IntStream.range(0, contacts).mapToObj(i -> new Box(Shape.CONTACT, "contact_" + i,
        "", "", "TRUE", false, List.of(new Port("", false, "")), List.of(new Port("", false, "TRUE")))).toList());
    List<Wire> wires = IntStream.range(1, contacts).mapToObj(i -> new Wire(i - 1, 0, i, 0, "TRUE", false)).toList();
    return new Drawing("Main, network 1", "q", 0, boxes, wires);
  }

  @Test
  void aLongRungGoesOnBelow() {
    String page = drawn(rung(12));
    assertThat(page).contains("; it goes on at the letters.").contains(">to A</text>")
        .containsPattern(">A, behind contact_[0-9]: TRUE</text>").doesNotContain("not drawn");
    assertThat(page.split("<svg")).hasSize(3);
    for (int i = 0; i < 12; i++) {
      assertThat(page.split(">contact_" + i + "</text>")).as("contact " + i).hasSize(2);
    }
  }

  @Test
  void aRungWithoutAnEndIsCutAtItsFarEnd() {
    String page = drawn(rung(60));
    assertThat(page).contains("; what leads here from further left is not drawn").contains(">contact_59</text>")
        .doesNotContain(">contact_0</text>").containsPattern(">behind contact_[0-9]+: TRUE</text>");
    double width = Double.parseDouble(page.replaceAll("(?s).*viewBox=\"0 0 ([0-9.]+) .*", "$1"));
    assertThat(width).isLessThan(1000);
  }
}
