package dev.pawl.plant.text;

import dev.pawl.grammar.rules.model.Dimension;

/**
 * A clause that a statement can have: its word or words, and what has to follow them.
 *
 * @param words the keyword, or several with a blank between
 * @param shape what follows
 * @param dimension of a quantity; {@link Dimension#NONE} else
 * @param least the least number, in SI units, that makes sense
 * @param most the greatest
 * @param example what could follow, for messages
 */
public record Key(String words, Shape shape, Dimension dimension, double least, double most, String example) {

  public static final Dimension ACCELERATION = new Dimension(1, 0, -2, 0, 0, 0);
  public static final Dimension AREA = new Dimension(2, 0, 0, 0, 0, 0);
  public static final Dimension MASS = new Dimension(0, 1, 0, 0, 0, 0);

  /** What follows a keyword. */
  public enum Shape {
    /** Nothing. */
    MARK,
    NAME,
    /** A number without a unit. */
    NUMBER,
    QUANTITY,
    /** A number in the unit of the signal that shows it. */
    AMOUNT
  }

  public static Key mark(String words) {
    return new Key(words, Shape.MARK, Dimension.NONE, 0, 0, "");
  }

  public static Key name(String words, String example) {
    return new Key(words, Shape.NAME, Dimension.NONE, 0, 0, example);
  }

  public static Key number(String words, double least, double most, String example) {
    return new Key(words, Shape.NUMBER, Dimension.NONE, least, most, example);
  }

  public static Key quantity(String words, Dimension dimension, double least, double most, String example) {
    return new Key(words, Shape.QUANTITY, dimension, least, most, example);
  }

  /** A place along a track. */
  public static Key place(String words) {
    return quantity(words, Dimension.LENGTH, 0, 100_000, "12 m");
  }

  public static Key time(String words) {
    return quantity(words, Dimension.TIME, 0, 3600, "0.4 s");
  }

  /** An amount in whatever unit is written, to be compared later with that of its signal. */
  public static Key amount(String words, String example) {
    return new Key(words, Shape.AMOUNT, Dimension.NONE, 0, 1e9, example);
  }

  /** How the clause is written. */
  public String written() {
    return example.isEmpty() ? words : words + " " + example;
  }
}
