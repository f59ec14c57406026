package dev.pawl.cli.archive;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.BiFunction;
import java.util.function.BinaryOperator;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.function.DoubleUnaryOperator;
import java.util.function.Function;
import java.util.function.IntBinaryOperator;
import java.util.function.IntFunction;
import java.util.function.IntPredicate;
import java.util.function.IntToLongFunction;
import java.util.function.LongFunction;
import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;
import java.util.function.ToIntFunction;
import java.util.function.ToLongFunction;

/** Lambda expressions of every kind, and what they give. Written for {@link LambdaClassesTest} to take apart. */
public final class LambdaSamples implements Supplier<List<Object>> {

  private final List<Object> given = new ArrayList<>();
  private final int base = 1_000;

  /** An interface of our own, with a method that itself uses an expression. */
  interface Twice<T> {
    T once(T value);

    default T twice(T value) {
      Function<T, T> again = first -> once(once(first));
      return again.apply(value);
    }
  }

  /** A member of the nest that is not at its head. */
  private static final class Inner {
    private final long secret;

    Inner(long secret) {
      this.secret = secret;
    }

    private long more(long by) {
      Supplier<Long> sum = () -> secret + by;
      return sum.get();
    }

    private static Inner of(Object text) {
      return new Inner(text.toString().length());
    }
  }

  @Override
  public List<Object> get() {
    capturing();
    namingMethods();
    inAndOutOfBoxes();
    inOtherPlaces();
    leftAsTheyAre();
    return given;
  }

  private void give(Object value) {
    given.add(value);
  }

  private void capturing() {
    Supplier<String> nothing = () -> "nothing";
    give(nothing.get());
    boolean flag = Boolean.parseBoolean("true");
    byte small = 3;
    char letter = 'c';
    short middle = -4;
    int whole = given.size();
    long large = 6L << 33;
    float rough = 7.5f;
    double fine = -8.25;
    int[] numbers = {9};
    Supplier<Object> all = () -> List.of(flag, small, letter, middle, whole, large, rough, fine, numbers[0], base);
    give(all.get());
    IntBinaryOperator ofThis = (one, other) -> base + one * other;
    give(ofThis.applyAsInt(3, 4));
    Consumer<Object> taking = this::give;
    taking.accept("taken");
    Runnable running = () -> give("run");
    running.run();
  }

  private void namingMethods() {
    Function<String, Integer> unbound = String::length;
    give(unbound.apply("four"));
    String text = "bound";
    IntFunction<Character> bound = text::charAt;
    give(bound.apply(1));
    Function<String, StringBuilder> constructor = StringBuilder::new;
    give(constructor.apply("made").reverse().toString());
    Supplier<List<String>> empty = ArrayList::new;
    give(empty.get());
    BinaryOperator<Integer> named = Math::max;
    give(named.apply(3, 8));
    Function<Object, Inner> secret = Inner::of;
    BiFunction<Inner, Long, Long> more = Inner::more;
    give(more.apply(secret.apply("12345"), 10L));
    Function<Object[], List<Object>> ofArray = Arrays::asList;
    give(ofArray.apply(new Object[] {1, "two"}));
    Consumer<List<Object>> ignoring = list -> list.add("added");
    ignoring.accept(given);
    Consumer<Object> whatItGives = given::add;
    whatItGives.accept("too");
    ToLongFunction<String> popping = Long::parseLong;
    give(popping.applyAsLong("77"));
  }

  private void inAndOutOfBoxes() {
    ToIntFunction<Integer> out = value -> value + 1;
    give(out.applyAsInt(1));
    IntFunction<Object> in = value -> value;
    give(in.apply(2));
    Function<Integer, Integer> both = Math::abs;
    give(both.apply(-3));
    Function<Long, Long> negation = Math::negateExact;
    give(negation.apply(4L));
    LongFunction<Long> boxed = Long::valueOf;
    give(boxed.apply(5));
    ToDoubleFunction<Double> unboxed = Double::doubleValue;
    give(unboxed.applyAsDouble(6.5));
    BooleanSupplier truth = given::isEmpty;
    give(truth.getAsBoolean());
    DoubleUnaryOperator root = Math::sqrt;
    give(root.applyAsDouble(49));
    IntPredicate even = value -> value % 2 == 0;
    give(even.test(8));
  }

  private void inOtherPlaces() {
    Twice<String> quoted = text -> "'" + text + "'";
    give(quoted.twice("q"));
    give(new Inner(40).more(2));
    Function<Integer, Function<Integer, Integer>> nested = one -> other -> one * 10 + other;
    give(nested.apply(4).apply(2));
  }

  /** Numbers that are widened on their way, an array's own method, and one that can be written to a stream. */
  private void leftAsTheyAre() {
    IntToLongFunction widened = Math::abs;
    give(widened.applyAsLong(-9));
    ToLongFunction<Integer> outAndWider = Math::abs;
    give(outAndWider.applyAsLong(-10));
    Function<int[], Object> copy = int[]::clone;
    give(((int[]) copy.apply(new int[] {11}))[0]);
    Supplier<String> kept = (Supplier<String> & Serializable) () -> "kept";
    give(kept.get());
  }
}
