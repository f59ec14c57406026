package dev.pawl.grammar.logic.drawn.intake;

import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.drawn.tree.Body;
import dev.pawl.grammar.logic.drawn.tree.Sequence;
import dev.pawl.grammar.logic.drawn.xml.XmlNode;
import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Initializer;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.logic.tree.VariableBlock;
import dev.pawl.grammar.logic.tree.VariableBlock.Section;
import dev.pawl.grammar.source.Diagnostic;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;

/**
 * The reader of projects in the exchange format of IEC 61131-10, edition 1, by its schema. Its units and types stand in
 * a namespace, its variables have their types' names as text, its wires lead from numbered places.
 */
public final class NamespaceReader {

  private static final Map<String, Section> SECTIONS = Map.of("InputVars", Section.VAR_INPUT, "OutputVars",
      Section.VAR_OUTPUT, "InoutVars", Section.VAR_IN_OUT, "Vars", Section.VAR, "TempVars", Section.VAR_TEMP,
      "ExternalVars", Section.VAR_EXTERNAL, "GlobalVars", Section.VAR_GLOBAL);

  private static final Map<String, Declaration.Kind> KINDS = Map.of("Program", Declaration.Kind.PROGRAM, "Function",
      Declaration.Kind.FUNCTION, "FunctionBlock", Declaration.Kind.FUNCTION_BLOCK);

  private final Reading reading;
  private final List<Declaration> declarations = new ArrayList<>();
  private final List<Project.Drawing> units = new ArrayList<>();

  private NamespaceReader(Reading reading) {
    this.reading = reading;
  }

  /** Whether the outermost element is that of a project in this format. */
  public static boolean reads(XmlNode root) {
    return root.namespace().endsWith("www.iec.ch/public/TC65SC65BWG7TF10");
  }

  /** Everything that a project declares. */
  public static Project read(XmlNode root, LanguageChoices choices, Consumer<Diagnostic> diagnostics) {
    return new NamespaceReader(new Reading(choices, diagnostics)).project(root);
  }

  private Project project(XmlNode root) {
    if (!root.name().equals("Project")) {
      return reading.outermost(root, "Project", KINDS.keySet(), (within, node) -> {
        NamespaceReader reader = new NamespaceReader(within);
        reader.unit(node);
        return reader.units.stream().findFirst();
      });
    }
    reading.only(root, "FileHeader", "ContentHeader", "Types", "Instances");
    root.children("Types").forEach(it -> reading.only(it, "GlobalNamespace"));
    root.children("Instances").forEach(it -> reading.only(it, "Configuration"));
    root.below("Types", "GlobalNamespace").forEach(this::namespace);
    root.below("Instances", "Configuration").forEach(this::configuration);
    return new Project(declarations, units);
  }

  private void namespace(XmlNode node) {
    for (XmlNode child : node.children()) {
      if (child.name().equals("NamespaceDecl")) {
        namespace(child);
      } else if (child.name().equals("DataTypeDecl")) {
        type(child);
      } else if (KINDS.containsKey(child.name())) {
        unit(child);
      } else if (child.name().equals("Class") || child.name().equals("Interface")) {
        reading.error(child.position(), "<" + child.name() + "> is not supported", "write it as a FUNCTION_BLOCK");
      }
    }
  }

  // ---- types and variables

  private void type(XmlNode node) {
    Optional<XmlNode> specification = node.child("UserDefinedTypeSpec");
    if (specification.isEmpty()) {
      reading.error(node.position(), "the type has no UserDefinedTypeSpec", "");
    }
    declarations.add(new Declaration.TypeDeclaration(reading.name(node, "name"), specification
        .map(this::specification).orElseGet(() -> new TypeSpecification.Unreadable(node.position())),
        specification.flatMap(this::initial)));
  }

  /** The type of an element beside its namespace: {@code Contact} of {@code xsi:type="ppx:Contact"}. */
  static String kind(XmlNode node) {
    String type = node.word("type");
    return type.substring(type.indexOf(':') + 1);
  }

  private TypeSpecification specification(XmlNode node) {
    return switch (kind(node)) {
      case "StructTypeSpec" -> new TypeSpecification.Structure(node.children("Member").stream().map(member ->
          new TypeSpecification.Field(reading.name(member, "name"), variableType(member), initial(member))).toList(),
          node.position());
      case "EnumTypeSpec", "EnumTypeWithNamedValueSpec" -> new TypeSpecification.Enumeration(node.child("BaseType")
          .map(base -> new Name(Reading.text(base).text().strip(), base.position())),
          node.children("Enumerator").stream().map(member -> new TypeSpecification.Member(reading.name(member, "name"),
              member.word("value").isEmpty() ? Optional.empty()
              : Optional.of(reading.expression(Reading.attribute(member, "value"), "the value")))).toList(),
          node.position());
      case "ArrayTypeSpec" -> array(node);
      case "DirectlyDerivedTypeSpec" -> base(node);
      case "SubrangeTypeSpec" -> subrange(node);
      default -> {
        reading.error(node.position(), "a type of the kind '" + kind(node) + "' is not read",
            "export it as a structure, an enumeration, an array, a subrange or a type derived of another");
        yield new TypeSpecification.Unreadable(node.position());
      }
    };
  }

  private TypeSpecification base(XmlNode node) {
    return node.child("BaseType").map(this::typeOf).orElseGet(() -> {
      reading.error(node.position(), "<" + node.name() + "> lacks its BaseType", "");
      return new TypeSpecification.Unreadable(node.position());
    });
  }

  private TypeSpecification array(XmlNode node) {
    List<XmlNode> dimensions = node.children("DimensionSpec").stream().sorted(Comparator.comparingLong(it ->
        reading.whole(it, "dimensionNumber").orElse(0L))).toList();
    if (dimensions.stream().anyMatch(it -> it.child("VariableLength").isPresent())) {
      return new TypeSpecification.OpenArray(dimensions.size(), base(node), node.position());
    }
    return new TypeSpecification.ArrayOf(dimensions.stream().flatMap(it -> it.children("IndexRange").stream())
        .map(range -> new TypeSpecification.Bounds(bound(range, "lower"), bound(range, "upper"))).toList(), base(node),
        node.position());
  }

  private TypeSpecification subrange(XmlNode node) {
    Optional<XmlNode> range = node.child("Range");
    if (range.isEmpty() || !(base(node) instanceof TypeSpecification.Named named)) {
      reading.error(node.position(), "a subrange needs a range and an integer type", "");
      return new TypeSpecification.Unreadable(node.position());
    }
    return new TypeSpecification.Subrange(named.name(), bound(range.get(), "lower"), bound(range.get(), "upper"),
        node.position());
  }

  private Expression bound(XmlNode range, String end) {
    return reading.expression(Reading.attribute(range, end), "the bound");
  }

  private TypeSpecification variableType(XmlNode variable) {
    return variable.child("Type").map(this::typeOf).orElseGet(() -> {
      reading.error(variable.position(), "the variable " + variable.word("name") + " has no type", "");
      return new TypeSpecification.Unreadable(variable.position());
    });
  }

  private TypeSpecification typeOf(XmlNode holder) {
    Optional<XmlNode> instant = holder.children().stream().filter(child -> child.name().startsWith("Instantly"))
        .findFirst();
    if (instant.isPresent()) {
      return kind(instant.get()).isEmpty() ? array(instant.get()) : specification(instant.get());
    }
    String name = Reading.text(holder).text().strip();
    if (!name.matches("[A-Za-z_][A-Za-z0-9_.]*")) {
      reading.error(holder.position(), "'" + name + "' is no name of a type", "give the type by its name");
      return new TypeSpecification.Unreadable(holder.position());
    }
    return new TypeSpecification.Named(new Name(name, holder.position()));
  }

  private Optional<Initializer> initial(XmlNode owner) {
    return owner.child("InitialValue").map(this::value);
  }

  private Initializer value(XmlNode holder) {
    for (XmlNode node : holder.children()) {
      if (node.name().equals("SimpleValue")) {
        return new Initializer.Value(reading.expression(Reading.attribute(node, "value"), "the first value"));
      } else if (node.name().equals("ArrayValue")) {
        return new Initializer.Elements(node.children("Value").stream().map(element -> reading.repeated(element,
            value(element))).toList(), node.position());
      } else if (node.name().equals("StructValue")) {
        return new Initializer.Fields(node.children("Value").stream()
            .map(field -> new Initializer.FieldValue(reading.name(field, "member"), value(field))).toList(),
            node.position());
      }
    }
    Fragment text = Reading.text(holder);
    if (text.text().isBlank()) {
      reading.error(holder.position(), "a first value is a SimpleValue, an ArrayValue or a StructValue", "");
    }
    return text.text().isBlank() ? new Initializer.Elements(List.of(), holder.position())
        : new Initializer.Value(reading.expression(text, "the first value"));
  }

  private VariableBlock block(XmlNode list, Section section) {
    reading.only(list, "Variable");
    List<VariableBlock.Variables> variables = list.children("Variable").stream().map(variable -> {
      reading.only(variable, "Type", "InitialValue", "Address");
      return new VariableBlock.Variables(List.of(reading.name(variable, "name")), variable.child("Address")
          .map(NamespaceReader::address), variableType(variable), Optional.empty(), initial(variable));
    }).toList();
    return new VariableBlock(section, reading.flag(list, "constant"),
        reading.flag(list, "retain"), variables, list.position());
  }

  /** An address in one piece, or in parts: {@code Q}, {@code X} and {@code 8.1} are {@code %QX8.1}. */
  private static Name address(XmlNode node) {
    String number = node.word("address");
    return new Name(number.startsWith("%") ? number : "%" + node.word("location") + node.word("size")
        + (number.isEmpty() ? "*" : number), node.position());
  }

  // ---- units and configurations

  private void unit(XmlNode node) {
    reading.only(node, "AccessVars", "GlobalVars", "Parameters", "ResultType", "ExternalVars", "Vars", "TempVars",
        "MainBody", "Action", "Transition", "Method", "Extends", "Implements");
    refuse(node, "AccessVars", "Method", "Extends", "Implements");
    Name name = reading.name(node, "name");
    List<VariableBlock> blocks = new ArrayList<>();
    List<XmlNode> lists = new ArrayList<>(node.children());
    lists.addAll(node.children("Parameters").stream().flatMap(it -> it.children().stream()).toList());
    lists.forEach(list -> Optional.ofNullable(SECTIONS.get(list.name())).ifPresent(section ->
        blocks.add(block(list, section))));
    Optional<Declaration.Unit> declared = blocks.stream().allMatch(block -> block.declarations().isEmpty())
        ? reading.declared(KINDS.get(node.name()), name, List.of(node)) : Optional.empty();
    declared.ifPresent(it -> blocks.addAll(it.blocks()));
    Optional<TypeSpecification> returns = node.below("Parameters", "ResultType").stream().findFirst()
        .or(() -> node.child("ResultType")).map(this::typeOf)
        .or(() -> declared.flatMap(Declaration.Unit::returns));
    if (node.below("MainBody", "BodyContent").isEmpty()) {
      reading.lacksBody(node, name);
    }
    List<Sequence.Action> actions = node.children("Action").stream().map(action -> new Sequence.Action(
        reading.name(action, "name"), action.below("Body", "BodyContent").stream().flatMap(content ->
            body(content).stream()).toList())).toList();
    List<Body> bodies = node.below("MainBody", "BodyContent").stream().flatMap(content -> body(content, actions,
        node.children("Transition")).stream()).toList();
    units.add(new Project.Drawing(KINDS.get(node.name()), name, returns, blocks, bodies, actions, node.position()));
  }

  private void refuse(XmlNode node, String... names) {
    for (String name : names) {
      node.child(name).ifPresent(it -> reading.error(it.position(), "<" + name + "> is not supported", ""));
    }
  }

  private Optional<Body> body(XmlNode node) {
    return body(node, List.of(), List.of());
  }

  private Optional<Body> body(XmlNode node, List<Sequence.Action> actions, List<XmlNode> transitions) {
    switch (kind(node)) {
      case "ST" -> {
        return Optional.of(new Body.Written(node.child("ST").map(Reading::text).orElseGet(() -> Reading.text(node))));
      }
      case "FBD", "LD" -> {
        return Optional.of(new Body.Networks(new PlaceReader(reading).networks(node), node.position()));
      }
      case "SFC" -> {
        return Optional.of(new Body.Chart(PlaceChartReader.chart(node, actions, transitions, this::body, reading)));
      }
      case "IL" -> {
        reading.error(node.position(), "Instruction List is not supported", "export it as Structured Text, or drawn");
        return Optional.empty();
      }
      default -> {
        reading.error(node.position(), "a body of the kind '" + kind(node) + "' is not read in this format",
            "export it as Structured Text, ladder, function blocks or a chart");
        return Optional.empty();
      }
    }
  }

  private void configuration(XmlNode node) {
    reading.only(node, "Resource", "GlobalVars", "AccessVars", "ConfigVars");
    refuse(node, "AccessVars", "ConfigVars");
    List<Declaration.Resource> resources = node.children("Resource").stream().map(this::resource).toList();
    List<VariableBlock> globals = globals(node);
    if (resources.stream().allMatch(resource -> resource.programs().isEmpty())) {
      globals.forEach(block -> declarations.add(new Declaration.Globals(block)));
      resources.forEach(resource -> resource.globals().forEach(block -> declarations.add(
          new Declaration.Globals(block))));
    } else {
      declarations.add(new Declaration.Configuration(reading.name(node, "name"), globals, resources));
    }
  }

  private List<VariableBlock> globals(XmlNode node) {
    return node.children("GlobalVars").stream().map(list -> block(list, Section.VAR_GLOBAL)).toList();
  }

  private Declaration.Resource resource(XmlNode node) {
    reading.only(node, "GlobalVars", "Task", "ProgramInstance");
    List<Declaration.Task> tasks = node.children("Task").stream().map(this::task).toList();
    List<Declaration.Instance> programs = node.children("ProgramInstance").stream().sorted(Comparator.comparingLong(
        program -> reading.whole(program, "evaluationOrder").orElse(0L))).map(this::instance).toList();
    return new Declaration.Resource(Optional.of(reading.name(node, "name")), globals(node), tasks, programs);
  }

  private Declaration.Task task(XmlNode node) {
    if (!Set.of("", "StandardTask").contains(kind(node))) {
      reading.error(node.position(), "a task of the kind '" + kind(node) + "' is not read",
          "state its interval, or the variable that starts it");
    }
    return reading.task(node, reading.name(node, "name"));
  }

  private Declaration.Instance instance(XmlNode node) {
    reading.only(node, "InputAssignment", "OutputAssignment", "InOutAssignment", "FbInstTaskAssociation");
    refuse(node, "InOutAssignment", "FbInstTaskAssociation");
    List<Expression.Argument> connections = new ArrayList<>();
    node.children("InputAssignment").forEach(it -> connections.add(new Expression.Input(parameter(it), actual(it))));
    node.children("OutputAssignment").forEach(it -> connections.add(new Expression.Output(parameter(it), false,
        Optional.of(actual(it)))));
    return new Declaration.Instance(reading.name(node, "name"), false, node.word("associatedTaskName").isEmpty()
        ? Optional.empty() : Optional.of(reading.name(node, "associatedTaskName")), reading.name(node, "typeName"),
        connections);
  }

  private Name parameter(XmlNode assignment) {
    return reading.name(assignment, "formalParameter");
  }

  private Expression actual(XmlNode assignment) {
    return reading.expression(Reading.attribute(assignment, "actualValue"), "the actualValue");
  }
}
