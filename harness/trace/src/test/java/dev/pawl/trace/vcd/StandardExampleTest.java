package dev.pawl.trace.vcd;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EventSink;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.trace.Books;
import dev.pawl.trace.Recording;
import dev.pawl.trace.TraceOptions;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/**
 * The example of a four-state dump in IEEE Std 1364-2005, clause 18.2.4 (from memory), and its table of left-extension.
 */
class StandardExampleTest {

  private static final long U = EventSink.UNKNOWN;

  private static final RuleBook NETS = Books.of(List.of(Map.entry("net1", new ValueType.Bool()), Map.entry("net2",
      new ValueType.Bool()),
      Map.entry("net3", new ValueType.Bool()), Map.entry("accumulator",
          new ValueType.Quantity("", Dimension.NONE, 1, 0)),
      Map.entry("index", new ValueType.Quantity("", Dimension.NONE, 1, 0))));

  private static final String EXAMPLE = """
      $date
          June 26, 1989 10:05:41
      $end
      $version
          some simulator
      $end
      $timescale
          1 ns
      $end
      $scope module top $end
      $scope module m1 $end
      $var trireg 1 *@ net1 $end
      $var trireg 1 *# net2 $end
      $var trireg 1 *$ net3 $end
      $upscope $end
      $scope task t1 $end
      $var reg 32 (k accumulator[31:0] $end
      $var integer 32 {2 index $end
      $upscope $end
      $upscope $end
      $enddefinitions $end
      $comment
          Note: $dumpvars was executed at time '#500'.
          All initial values are dumped at this time.
      $end
      #500
      $dumpvars
      x*@
      x*#
      x*$
      bx (k
      bx {2
      $end
      #505
      0*@
      1*#
      1*$
      b10zx1110x11100 (k
      b1111000101z01x {2
      #510
      0*$
      #520
      1*$
      #530
      0*$
      bz (k
      #535
      $dumpall 0*@ 1*# 0*$
      bz (k
      b1111000101z01x {2
      $end
      #540
      1*$
      #1000
      $dumpoff
      x*@
      x*#
      x*$
      bx (k
      bx {2
      $end
      #2000
      $dumpon
      z*@
      1*#
      0*$
      b0 (k
      bx {2
      $end
      #2010
      1*$
      """;

  @Test
  void readsTheExampleOfTheStandard() {
    Recording recording = Recording.of(EXAMPLE, TraceOptions.of(NETS));
    assertThat(recording.summary().diagnostics()).isEmpty();
    assertThat(recording.events()).containsExactly(
        event(505, 0, 0), event(505, 1, 1), event(505, 2, 1), event(505, 3, U), event(505, 4, U),
        event(510, 2, 0), event(520, 2, 1), event(530, 2, 0), event(530, 3, U), event(540, 2, 1),
        event(1000, 0, U), event(1000, 1, U), event(1000, 2, U),
        event(2000, 1, 1), event(2000, 2, 0), event(2000, 3, Books.si(0)), event(2010, 2, 1));
    assertThat(recording.summary().times().end()).hasValue(2010);
    assertThat(recording.summary().times().first()).hasValue(500);
  }

  private static Recording.Event event(long time, int signal, long value) {
    return new Recording.Event(time, signal, value);
  }

  /** A vector may leave out what stands left of it: 0 and 1 are continued by 0, x by x, z by z. */
  @Test
  void extendsVectorsToTheLeft() {
    Recording recording = Recording.of("""
        $timescale 1 us $end
        $var reg 10 ! accumulator $end
        $var integer 4 " index $end
        $enddefinitions $end
        #0 b10 ! #1 bX10 ! #2 b111 ! #3 bZX0 ! #4 b0X10 ! #5 b0000000101 ! #6 b1101 " #7 b101 "
        """, TraceOptions.of(NETS));
    assertThat(recording.events()).containsExactly(event(0, 3, Books.si(2)), event(1000, 3, U),
        event(2000, 3, Books.si(7)), event(3000, 3, U), event(4000, 3, U), event(5000, 3, Books.si(5)),
        event(6000, 4, Books.si(-3)), event(7000, 4,
            Books.si(5)));
  }

  @Test
  void tellsVariablesOfOneNameApartByTheirPaths() {
    String dump = """
        $timescale 1 ps $end
        $scope module a $end $var wire 1 ! net1 $end $upscope $end
        $scope module b $end $var wire 1 ! net1 $end $var wire 1 # net2 $end $var wire 1 $ net2 $end $upscope $end
        $enddefinitions $end
        #1500 1! 1# 1$
        """;
    Recording recording = Recording.of(dump, TraceOptions.of(NETS));
    assertThat(recording.summary().diagnostics()).hasSize(1);
    assertThat(recording.summary().diagnostics().get(0).hint())
        .isEqualTo("bind the right one by its path, 'b.net2', in a bindings file");
    assertThat(recording.summary().times().finer()).isEqualTo(1);
    assertThat(recording.events()).containsExactly(event(1, 0, 1), event(1, 1, 1));
  }
}
