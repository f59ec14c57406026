package dev.pawl.grammar.logic.drawn.intake;

import dev.pawl.grammar.logic.drawn.xml.XmlNode;
import dev.pawl.grammar.logic.tree.Initializer;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.logic.tree.VariableBlock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/** The reader of types, first values and variables. */
final class TypeReader {

  /** A type of a namespace, or of a library. */
  private static final Pattern QUALIFIED = Pattern.compile("[A-Za-z_][A-Za-z0-9_]*(\\.[A-Za-z_][A-Za-z0-9_]*)+");

  private final Reading reading;

  TypeReader(Reading reading) {
    this.reading = reading;
  }

  /** The type in an element that holds one. */
  TypeSpecification type(XmlNode holder) {
    Optional<XmlNode> node = holder.children().stream().filter(child -> !child.name().equals("addData")).findFirst();
    if (node.isEmpty()) {
      reading.error(holder.position(), "<" + holder.name() + "> holds no type", "");
      return new TypeSpecification.Unreadable(holder.position());
    }
    return specification(node.get());
  }

  private TypeSpecification specification(XmlNode node) {
    switch (node.name()) {
      case "array" -> reading.only(node, "dimension", "baseType");
      case "enum" -> {
        reading.only(node, "values", "baseType");
        node.children("values").forEach(it -> reading.only(it, "value"));
      }
      case "struct" -> reading.only(node, "variable");
      default -> { }
    }
    return switch (node.name()) {
      case "string", "wstring" -> string(node);
      case "derived" -> new TypeSpecification.Named(QUALIFIED.matcher(node.word("name")).matches()
          ? new Name(node.word("name"), node.position()) : reading.name(node, "name"));
      case "array" -> node.children("dimension").stream().anyMatch(range -> range.word("lower").equals("*"))
          ? new TypeSpecification.OpenArray(node.children("dimension").size(), base(node), node.position())
          : new TypeSpecification.ArrayOf(node.children("dimension").stream()
          .map(range -> new TypeSpecification.Bounds(reading.expression(Reading.attribute(range, "lower"), "the bound"),
              reading.expression(Reading.attribute(range, "upper"), "the bound"))).toList(), base(node),
              node.position());
      case "enum" -> new TypeSpecification.Enumeration(node.child("baseType").map(this::type)
          .flatMap(TypeReader::named), node.below("values", "value").stream().map(this::member).toList(),
          node.position());
      case "struct" -> new TypeSpecification.Structure(node.children("variable").stream()
          .map(field -> new TypeSpecification.Field(reading.name(field, "name"), variableType(field), initial(field)))
          .toList(), node.position());
      case "subrangeSigned", "subrangeUnsigned" -> subrange(node);
      case "pointer" -> {
        reading.error(node.position(), "pointers are not supported", "");
        yield new TypeSpecification.Unreadable(node.position());
      }
      default -> new TypeSpecification.Named(new Name(node.name(), node.position()));
    };
  }

  private static Optional<Name> named(TypeSpecification type) {
    return type instanceof TypeSpecification.Named named ? Optional.of(named.name()) : Optional.empty();
  }

  private TypeSpecification base(XmlNode node) {
    return node.child("baseType").map(this::type).orElseGet(() -> {
      reading.error(node.position(), "<" + node.name() + "> lacks its baseType", "");
      return new TypeSpecification.Unreadable(node.position());
    });
  }

  private TypeSpecification string(XmlNode node) {
    Name name = new Name(node.name().equals("string") ? "STRING" : "WSTRING", node.position());
    return node.word("length").isEmpty() ? new TypeSpecification.Named(name) : new TypeSpecification.SizedString(name,
        reading.expression(Reading.attribute(node, "length"), "the length"), node.position());
  }

  private TypeSpecification subrange(XmlNode node) {
    Optional<XmlNode> range = node.child("range");
    Optional<Name> base = named(base(node));
    if (range.isEmpty() || base.isEmpty()) {
      reading.error(node.position(), "a subrange needs a range and an integer type", "");
      return new TypeSpecification.Unreadable(node.position());
    }
    return new TypeSpecification.Subrange(base.get(),
        reading.expression(Reading.attribute(range.get(), "lower"), "the bound"),
        reading.expression(Reading.attribute(range.get(), "upper"), "the bound"), node.position());
  }

  private TypeSpecification.Member member(XmlNode node) {
    return new TypeSpecification.Member(reading.name(node, "name"), node.word("value").isEmpty() ? Optional.empty()
        : Optional.of(reading.expression(Reading.attribute(node, "value"), "the value")));
  }

  private TypeSpecification variableType(XmlNode variable) {
    return variable.child("type").map(this::type).orElseGet(() -> {
      reading.error(variable.position(), "the variable " + variable.word("name") + " has no type", "");
      return new TypeSpecification.Unreadable(variable.position());
    });
  }

  /** The first value that an element states for what it declares. */
  Optional<Initializer> initial(XmlNode owner) {
    return owner.child("initialValue").map(this::value);
  }

  private Initializer value(XmlNode holder) {
    for (XmlNode node : holder.children()) {
      if (node.name().equals("simpleValue")) {
        return new Initializer.Value(reading.expression(Reading.attribute(node, "value"), "the first value"));
      } else if (node.name().equals("arrayValue")) {
        return new Initializer.Elements(node.children("value").stream().map(element -> reading.repeated(
            element, value(element))).toList(), node.position());
      } else if (node.name().equals("structValue")) {
        return new Initializer.Fields(node.children("value").stream()
            .map(field -> new Initializer.FieldValue(reading.name(field, "member"), value(field))).toList(),
            node.position());
      }
    }
    reading.error(holder.position(), "a first value is a simpleValue, an arrayValue or a structValue", "");
    return new Initializer.Elements(List.of(), holder.position());
  }

  /** A list of variables. */
  VariableBlock block(XmlNode list, VariableBlock.Section section) {
    List<VariableBlock.Variables> variables = new ArrayList<>();
    reading.only(list, "variable");
    for (XmlNode variable : list.children("variable")) {
      reading.only(variable, "type", "initialValue");
      Optional<Name> address = variable.word("address").isEmpty() ? Optional.empty()
          : Optional.of(new Name(variable.word("address"), variable.position()));
      variables.add(new VariableBlock.Variables(List.of(reading.name(variable, "name")), address,
          variableType(variable), Optional.empty(), initial(variable)));
    }
    return new VariableBlock(section, reading.flag(list, "constant"),
        reading.flag(list, "retain") || reading.flag(list, "persistent"), variables,
        list.position(), list.attribute("name"));
  }
}
