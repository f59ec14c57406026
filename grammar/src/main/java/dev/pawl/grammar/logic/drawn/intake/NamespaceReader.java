package dev.pawl.grammar.logic.drawn.intake;

import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.drawn.tree.Body;
import dev.pawl.grammar.logic.drawn.xml.XmlNode;
import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Initializer;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.logic.tree.VariableBlock;
import dev.pawl.grammar.logic.tree.VariableBlock.Section;
import dev.pawl.grammar.source.Diagnostic;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * The reader of projects in the exchange format of IEC 61131-10 (edition 1; from memory and from public examples: its
 * schema was not at hand). Its units and types stand in a namespace, its variables have their types' names as text,
 * its wires lead from numbered places.
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
      reading.error(root.position(), "a project begins with <Project>, not with <" + root.name() + ">",
          "export the whole project");
    }
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
      case "DirectlyDerivedTypeSpec" -> typeOf(node);
      default -> {
        reading.error(node.position(), "a type of the kind '" + kind(node) + "' is not read", "");
        yield new TypeSpecification.Unreadable(node.position());
      }
    };
  }

  private TypeSpecification array(XmlNode node) {
    return new TypeSpecification.ArrayOf(node.below("DimensionSpec", "IndexRange").stream().map(range ->
        new TypeSpecification.Bounds(reading.expression(Reading.attribute(range, "lower"), "the bound"),
            reading.expression(Reading.attribute(range, "upper"), "the bound"))).toList(),
        node.child("BaseType").map(this::typeOf).orElseGet(() -> new TypeSpecification.Unreadable(node.position())),
        node.position());
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
      reading.error(holder.position(), "'" + name + "' is no name of a type", "");
      return new TypeSpecification.Unreadable(holder.position());
    }
    return new TypeSpecification.Named(new Name(name, holder.position()));
  }

  private Optional<Initializer> initial(XmlNode owner) {
    Optional<XmlNode> value = owner.child("InitialValue");
    Optional<XmlNode> simple = value.flatMap(it -> it.child("SimpleValue"));
    if (value.isPresent() && simple.isEmpty()) {
      reading.error(value.get().position(), "of first values only a SimpleValue is read in this format", "");
    }
    return simple.map(it -> new Initializer.Value(reading.expression(Reading.attribute(it, "value"),
        "the first value")));
  }

  private VariableBlock block(XmlNode list, Section section) {
    List<VariableBlock.Variables> variables = list.children("Variable").stream().map(variable -> {
      Optional<Name> address = variable.child("Address").map(it -> new Name(it.word("address"), it.position()));
      return new VariableBlock.Variables(List.of(reading.name(variable, "name")), address, variableType(variable),
          Optional.empty(), initial(variable));
    }).toList();
    return new VariableBlock(section, reading.flag(list, "constant"),
        reading.flag(list, "retain"), variables, list.position());
  }

  // ---- units and configurations

  private void unit(XmlNode node) {
    List<VariableBlock> blocks = new ArrayList<>();
    List<XmlNode> lists = new ArrayList<>(node.children());
    lists.addAll(node.children("Parameters").stream().flatMap(it -> it.children().stream()).toList());
    lists.forEach(list -> Optional.ofNullable(SECTIONS.get(list.name())).ifPresent(section ->
        blocks.add(block(list, section))));
    Optional<TypeSpecification> returns = node.below("Parameters", "ResultType").stream().findFirst()
        .or(() -> node.child("ResultType")).map(this::typeOf);
    if (node.below("MainBody", "BodyContent").isEmpty()) {
      reading.lacksBody(node, reading.name(node, "name"));
    }
    List<Body> bodies = node.below("MainBody", "BodyContent").stream().flatMap(body -> body(body).stream()).toList();
    units.add(new Project.Drawing(KINDS.get(node.name()), reading.name(node, "name"), returns, blocks, bodies,
        List.of(),
        node.position()));
  }

  private Optional<Body> body(XmlNode node) {
    switch (kind(node)) {
      case "ST" -> {
        return Optional.of(new Body.Written(node.child("ST").map(Reading::text).orElseGet(() -> Reading.text(node))));
      }
      case "FBD", "LD" -> {
        return Optional.of(new Body.Networks(new PlaceReader(reading).elements(node), node.position()));
      }
      default -> {
        reading.error(node.position(), "a body of the kind '" + kind(node) + "' is not read in this format",
            "export it as Structured Text, ladder or function blocks, or the chart in the format before this one");
        return Optional.empty();
      }
    }
  }

  private void configuration(XmlNode node) {
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
    List<Declaration.Task> tasks = node.children("Task").stream().map(task -> reading.task(task,
        reading.name(task, "name"))).toList();
    List<Declaration.Instance> programs = node.children("ProgramInstance").stream().map(program ->
        new Declaration.Instance(reading.name(program, "name"), false, program.word("associatedTaskName").isEmpty()
            ? Optional.empty() : Optional.of(reading.name(program, "associatedTaskName")),
            reading.name(program, "typeName"), List.of())).toList();
    return new Declaration.Resource(Optional.of(reading.name(node, "name")), globals(node), tasks, programs);
  }
}
