package dev.pawl.cli.archive;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.lang.reflect.Constructor;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Records whose methods have been written out are equal, and have the hash codes, that they would have had. */
class RecordMethodsTest {

  /** One component of every kind. */
  record Everything(boolean flag, byte small, char letter, short middle, int whole, long large, float rough, double fine, String text,
      int[] numbers) {}

  record Nothing() {}

  /** A record with an equality of its own. */
  record Own(int value) {
    @Override
    public boolean equals(Object other) {
      return other instanceof Own;
    }

    @Override
    public int hashCode() {
      return 7;
    }
  }

  private static final int[] NUMBERS = {1};

  private static final List<Object[]> VALUES = values();

  /** A usual record, and for each component one or more that differ in it only; the same twice at the end. */
  private static List<Object[]> values() {
    Object[] usual = {true, (byte) 3, 'c', (short) -4, 5, 6L << 33, 7.5f, -8.25, "nine", NUMBERS};
    Object[][] others = {{false}, {(byte) -3}, {'d'}, {(short) 4}, {-5}, {6L}, {Float.NaN, 0f, -0f}, {Double.NaN, 0.0, -0.0}, {null, "ten"},
      {null, new int[] {1}}};
    List<Object[]> all = new ArrayList<>(List.<Object[]>of(usual));
    for (int component = 0; component < others.length; component++) {
      for (Object other : others[component]) {
        Object[] changed = usual.clone();
        changed[component] = other;
        all.add(changed);
      }
    }
    all.add(usual.clone());
    return all;
  }

  private static byte[] bytes(Class<?> type) throws IOException {
    return Compiled.named(type.getName().substring(type.getPackageName().length() + 1));
  }

  private static Class<?> writtenOut(Class<?> type) throws IOException {
    byte[] written = RecordMethods.writtenOut(bytes(type));
    return new ClassLoader(RecordMethodsTest.class.getClassLoader()) {
      private final Class<?> defined = defineClass(type.getName(), written, 0, written.length);
    }.defined;
  }

  private static List<Object> made(Class<?> type) throws ReflectiveOperationException {
    Constructor<?> constructor = type.getDeclaredConstructors()[0];
    constructor.setAccessible(true);
    List<Object> made = new ArrayList<>();
    for (Object[] values : VALUES) {
      made.add(constructor.newInstance(values));
    }
    return made;
  }

  @Test
  void areEqualToWhatTheyWereEqualTo() throws Exception {
    List<Object> before = made(Everything.class);
    List<Object> after = made(writtenOut(Everything.class));
    int equal = 0;
    for (int one = 0; one < before.size(); one++) {
      assertThat(after.get(one)).hasSameHashCodeAs(before.get(one)).isNotEqualTo(before.get(one)).isNotEqualTo(null);
      for (int other = 0; other < before.size(); other++) {
        boolean expected = before.get(one).equals(before.get(other));
        assertThat(after.get(one).equals(after.get(other))).as("%s, %s", before.get(one), before.get(other)).isEqualTo(expected);
        equal += expected ? 1 : 0;
      }
    }
    assertThat(equal).as("each with itself, and the usual one with the last").isEqualTo(before.size() + 2);
  }

  @Test
  void ofNothingAreAllEqual() throws Exception {
    Constructor<?> constructor = writtenOut(Nothing.class).getDeclaredConstructor();
    constructor.setAccessible(true);

    assertThat(constructor.newInstance()).isEqualTo(constructor.newInstance()).hasSameHashCodeAs(new Nothing());
  }

  @Test
  void areNotMadeUpAtRunTimeAnyMore() throws IOException {
    assertThat(Compiled.madeUp(bytes(Everything.class))).containsExactlyInAnyOrder("equals equals", "hashCode hashCode", "toString toString");
    assertThat(Compiled.madeUp(RecordMethods.writtenOut(bytes(Everything.class)))).containsExactly("toString toString");
  }

  @Test
  void areLeftAloneWhereThereIsNothingToWriteOut() throws IOException {
    byte[] once = RecordMethods.writtenOut(bytes(Everything.class));

    for (byte[] other : Arrays.asList(once, bytes(Own.class), bytes(RecordMethodsTest.class))) {
      assertThat(RecordMethods.writtenOut(other)).isSameAs(other);
    }
  }
}
