package dev.pawl.trace.bytes;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.CharRange;
import net.jqwik.api.constraints.Size;
import net.jqwik.api.constraints.StringLength;
import org.junit.jupiter.api.Test;

/** The perfect hash of names, against a list that is searched. */
class NameTableTest {

  @Property(tries = 300)
  void findsEveryNameAndNoOther(
      @ForAll @Size(max = 40) Set<@StringLength(max = 20) @CharRange(from = 'a', to = 'c') String> names,
      @ForAll @Size(max = 40) List<@StringLength(max = 20) @CharRange(from = 'a', to = 'c') String> others) {
    List<String> list = new ArrayList<>(names);
    NameTable table = new NameTable(list);
    for (String name : list) {
      assertThat(table.find(name)).isEqualTo(list.indexOf(name));
    }
    for (String other : others) {
      assertThat(table.find(other)).isEqualTo(list.indexOf(other));
    }
  }

  @Test
  void tellsApartNamesThatAgreeInLengthAndBothEnds() {
    List<String> names = new ArrayList<>();
    for (int i = 10; i < 90; i++) {
      names.add("Station." + i + ".Running");
    }
    NameTable table = new NameTable(names);
    for (int i = 0; i < names.size(); i++) {
      assertThat(table.find(names.get(i))).isEqualTo(i);
    }
    assertThat(table.find("Station.99.Running")).isEqualTo(-1);
  }

  @Test
  void holdsThousandsOfNames() {
    List<String> names = new ArrayList<>();
    for (int i = 0; i < 5000; i++) {
      names.add("tag" + i);
    }
    NameTable table = new NameTable(names);
    for (int i = 0; i < names.size(); i++) {
      assertThat(table.find(names.get(i))).isEqualTo(i);
    }
    assertThat(table.find("tag5000")).isEqualTo(-1);
  }

  @Test
  void doesNotLookBeyondTheEndsOfAName() {
    NameTable table = new NameTable(List.of("flag"));
    byte[] first = ".".repeat(40).getBytes(StandardCharsets.US_ASCII);
    byte[] second = "x".repeat(40).getBytes(StandardCharsets.US_ASCII);
    for (byte[] bytes : List.of(first, second)) {
      System.arraycopy("flag".getBytes(StandardCharsets.US_ASCII), 0, bytes, 18, 4);
      assertThat(table.find(bytes, 18, 4)).isZero();
      assertThat(table.find(bytes, 18, 3)).isEqualTo(-1);
    }
  }
}
