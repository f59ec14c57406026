package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.BlockType;
import dev.pawl.grammar.logic.model.Image;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Variable;

/** A type with the first value that its variables have unless they state another. */
record NamedType(LogicType type, Image initial) {

  static NamedType of(LogicType type) {
    return new NamedType(type, defaultOf(type));
  }

  /** What stands where a type was refused. */
  static NamedType unknown() {
    return of(new LogicType.Unknown());
  }

  /**
   * The first value that the standard gives a type: zero, the empty string, the first name, the lowest of a subrange.
   */
  static Image defaultOf(LogicType type) {
    if (type instanceof LogicType.StringType) {
      return Image.text("");
    }
    if (type instanceof LogicType.EnumerationType enumeration) {
      return Image.word(enumeration.members().isEmpty() ? 0 : enumeration.members().get(0).value());
    }
    if (type instanceof LogicType.SubrangeType subrange) {
      return Image.word(subrange.low());
    }
    if (type instanceof LogicType.ArrayType array) {
      return repeated(defaultOf(array.element()), array.elements());
    }
    Image image = Image.zeroes(type.size());
    if (type instanceof LogicType.StructureType structure) {
      structure.fields().forEach(field -> image.put(field.offset(), field.initial()));
    }
    if (type instanceof BlockType block) {
      block.variables().stream().filter(variable -> variable.role() != Variable.Role.IN_OUT)
          .forEach(variable -> image.put(variable.offset(), variable.initial()));
    }
    return image;
  }

  static Image repeated(Image element, int count) {
    Image image = Image.zeroes(element.size() * count);
    for (int i = 0; i < count; i++) {
      image.put(i * element.size(), element);
    }
    return image;
  }
}
