package dev.pawl.grammar.logic.model;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** A type of values. */
public sealed interface LogicType permits Elementary, LogicType.StringType, LogicType.EnumerationType,
    LogicType.SubrangeType, LogicType.ArrayType, LogicType.StructureType, LogicType.Unknown, BlockType {

  /** The name under which messages speak of it. */
  String name();

  /**
   * The first value that the standard gives a variable of this type: zero, the empty string, the first name, the lowest
   * of a subrange.
   */
  Image initial();

  /** Slots that a variable of this type takes. */
  default int size() {
    return 1;
  }

  /**
   * The elementary type by which values of this type are stored; empty for strings and for whatever takes more than one
   * slot.
   */
  default Optional<Elementary> stored() {
    return Optional.empty();
  }

  /**
   * Whether a variable of this type is a single value rather than an array, a structure or a function block instance.
   */
  default boolean scalar() {
    return match(type -> true, array -> false, structure -> false, block -> false);
  }

  /** The answer for the one it is, by what a variable of it is made of. */
  default <R> R match(Function<LogicType, R> scalar, Function<ArrayType, R> array, Function<StructureType, R> structure,
      Function<BlockType, R> block) {
    return scalar.apply(this);
  }

  /** What a type stands for that nothing declares, which has been reported: nothing is said of its values. */
  record Unknown() implements LogicType {
    @Override
    public Image initial() {
      return Image.word(0);
    }

    @Override
    public String name() {
      return "unknown";
    }
  }

  /** A string of at most {@code length} characters. */
  record StringType(boolean wide, int length) implements LogicType {

    /** Length of a STRING declared without one; the standard leaves it to the implementer. */
    public static final int DEFAULT_LENGTH = 254;

    @Override
    public Image initial() {
      return Image.text("");
    }

    @Override
    public String name() {
      String word = wide ? "WSTRING" : "STRING";
      return length == DEFAULT_LENGTH ? word : word + "[" + length + "]";
    }
  }

  /** A list of names, each with a value. */
  record EnumerationType(String name, Elementary base, List<Member> members) implements LogicType {
    public EnumerationType {
      members = List.copyOf(members);
    }

    @Override
    public Image initial() {
      return Image.word(members.isEmpty() ? 0 : members.get(0).value());
    }

    @Override
    public Optional<Elementary> stored() {
      return Optional.of(base);
    }

    public Optional<Member> member(String wanted) {
      return members.stream().filter(member -> member.name().equalsIgnoreCase(wanted)).findFirst();
    }
  }

  /** A name of an enumeration and its value. */
  record Member(String name, long value) {}

  /** An integer type cut down to {@code low} to {@code high}. */
  record SubrangeType(String name, Elementary base, long low, long high) implements LogicType {
    @Override
    public Image initial() {
      return Image.word(low);
    }

    @Override
    public Optional<Elementary> stored() {
      return Optional.of(base);
    }
  }

  /** An array; several dimensions are stored row by row. */
  record ArrayType(List<Bounds> bounds, LogicType element) implements LogicType {
    public ArrayType {
      bounds = List.copyOf(bounds);
    }

    @Override
    public Image initial() {
      return element.initial().repeated(elements());
    }

    @Override
    public String name() {
      StringBuilder text = new StringBuilder("ARRAY[");
      for (Bounds dimension : bounds) {
        text.append(text.length() > 6 ? ", " : "").append(dimension.low()).append("..").append(dimension.high());
      }
      return text + "] OF " + element.name();
    }

    public int elements() {
      long count = 1;
      for (Bounds dimension : bounds) {
        count *= dimension.length();
      }
      return (int) count;
    }

    @Override
    public int size() {
      return elements() * element.size();
    }

    @Override
    public <R> R match(Function<LogicType, R> scalar, Function<ArrayType, R> array,
        Function<StructureType, R> structure, Function<BlockType, R> block) {
      return array.apply(this);
    }
  }

  /** First and last index of one dimension. */
  record Bounds(long low, long high) {
    public long length() {
      return high - low + 1;
    }
  }

  /** A structure. */
  record StructureType(String name, List<Field> fields) implements LogicType {
    public StructureType {
      fields = List.copyOf(fields);
    }

    @Override
    public Image initial() {
      Image image = Image.zeroes(size());
      fields.forEach(field -> image.put(field.offset(), field.initial()));
      return image;
    }

    @Override
    public int size() {
      return fields.stream().mapToInt(field -> field.type().size()).sum();
    }

    @Override
    public <R> R match(Function<LogicType, R> scalar, Function<ArrayType, R> array,
        Function<StructureType, R> structure, Function<BlockType, R> block) {
      return structure.apply(this);
    }

    public Optional<Field> field(String wanted) {
      return fields.stream().filter(field -> field.name().equalsIgnoreCase(wanted)).findFirst();
    }
  }

  /** A field of a structure, {@code offset} slots from its start. */
  record Field(String name, LogicType type, int offset, Image initial) {}
}
