package dev.pawl.grammar.logic.check;

import dev.pawl.grammar.logic.model.BlockType;
import dev.pawl.grammar.logic.model.Image;
import dev.pawl.grammar.logic.model.LogicType;
import dev.pawl.grammar.logic.model.Value;
import dev.pawl.grammar.logic.model.Variable;
import dev.pawl.grammar.logic.tree.Initializer;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.source.Diagnostics;
import dev.pawl.grammar.source.NearName;
import java.util.List;
import java.util.Optional;

/** The first values of variables, as images of memory. */
final class Initializers {

  private final Diagnostics diagnostics;
  private final Checking checking;

  Initializers(Diagnostics diagnostics, Checking checking) {
    this.diagnostics = diagnostics;
    this.checking = checking;
  }

  /** The image of a variable of that type with the first value as written; parts not written keep the type's own. */
  Image image(NamedType named, Initializer written) {
    LogicType type = named.type();
    if (type instanceof LogicType.Unknown) {
      return named.initial();
    }
    if (written instanceof Initializer.Value value && type.scalar()) {
      Value constant = checking.constants().value(value.expression(), type, "the first value");
      return constant instanceof Value.Text text ? Image.text(text.text())
          : Image.word(((Value.Constant) constant).word());
    }
    if (written instanceof Initializer.Elements elements && type instanceof LogicType.ArrayType array) {
      return elements(array, named.initial(), elements);
    }
    if (written instanceof Initializer.Fields fields && type instanceof LogicType.StructureType structure) {
      return fields(structure, named.initial(), fields);
    }
    if (written instanceof Initializer.Fields fields && type instanceof BlockType block) {
      return inputs(block, named.initial(), fields);
    }
    diagnostics.error(written.position(), "this does not fit a variable of type " + type.name(), form(type));
    return named.initial();
  }

  private static String form(LogicType type) {
    if (type instanceof LogicType.ArrayType) {
      return "arrays are written [1, 2, 3(0)]";
    }
    return type.scalar() ? "write a single value" : "structures are written (name := value, other := value)";
  }

  private Image elements(LogicType.ArrayType array, Image initial, Initializer.Elements written) {
    Image image = copy(initial);
    int size = array.element().size();
    long next = 0;
    for (Initializer.Repeated repeated : written.elements()) {
      Image own = copy(part(image, 0, size));
      Image element = repeated.initial().map(value -> image(new NamedType(array.element(), own), value)).orElse(own);
      for (int i = 0; i < repeated.count() && next < array.elements(); i++, next++) {
        image.put((int) next * size, element);
      }
    }
    long count = written.elements().stream().mapToLong(Initializer.Repeated::count).sum();
    if (count > array.elements()) {
      diagnostics.error(written.position(), "there are " + count + " first values, but the array has "
          + array.elements() + " elements");
    }
    return image;
  }

  private Image fields(LogicType.StructureType structure, Image initial, Initializer.Fields written) {
    Image image = copy(initial);
    for (Initializer.FieldValue value : written.fields()) {
      Optional<LogicType.Field> field = structure.field(value.name().text());
      if (field.isEmpty()) {
        unknown(value.name(), structure.name(), structure.fields().stream().map(LogicType.Field::name).toList());
        continue;
      }
      Image own = part(image, field.get().offset(), field.get().type().size());
      image.put(field.get().offset(), image(new NamedType(field.get().type(), own), value.initial()));
    }
    return image;
  }

  private Image inputs(BlockType block, Image initial, Initializer.Fields written) {
    Image image = copy(initial);
    for (Initializer.FieldValue value : written.fields()) {
      Optional<Variable> variable = block.variable(value.name().text())
          .filter(found -> found.role() == Variable.Role.INPUT || found.role() == Variable.Role.OUTPUT);
      if (variable.isEmpty()) {
        unknown(value.name(), block.name(), block.variables().stream()
            .filter(found -> found.role() == Variable.Role.INPUT)
            .map(Variable::name).toList());
        continue;
      }
      Image own = part(image, variable.get().offset(), variable.get().type().size());
      image.put(variable.get().offset(), image(new NamedType(variable.get().type(), own), value.initial()));
    }
    return image;
  }

  private void unknown(Name name, String owner, List<String> known) {
    diagnostics.error(name.position(), owner + " has no " + name, NearName.hint(name.text(), known).orElse(""));
  }

  private static Image copy(Image image) {
    return part(image, 0, image.size());
  }

  private static Image part(Image image, int offset, int size) {
    Image part = Image.zeroes(size);
    System.arraycopy(image.words(), offset, part.words(), 0, size);
    System.arraycopy(image.texts(), offset, part.texts(), 0, size);
    return part;
  }
}
