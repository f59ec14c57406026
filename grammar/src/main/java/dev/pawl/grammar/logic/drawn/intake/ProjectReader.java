package dev.pawl.grammar.logic.drawn.intake;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.drawn.tree.Body;
import dev.pawl.grammar.logic.drawn.tree.Sequence;
import dev.pawl.grammar.logic.drawn.xml.XmlNode;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.logic.tree.VariableBlock;
import dev.pawl.grammar.logic.tree.VariableBlock.Section;
import dev.pawl.grammar.source.Diagnostic;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;

/**
 * The reader of projects in the exchange format of edition 2 and earlier. What a project says of the tool that wrote
 * it is not looked at.
 */
public final class ProjectReader {

  private static final Set<String> NAMESPACES = Set.of("http://www.plcopen.org/xml/tc6.xsd",
      "http://www.plcopen.org/xml/tc6_0200", "http://www.plcopen.org/xml/tc6_0201");

  /** What declares something, wherever it stands. */
  private static final Set<String> DECLARING = Set.of("dataType", "globalVars", "pou", "resource", "configuration");

  private static final Map<String, Section> SECTIONS = Map.of("localVars", Section.VAR, "tempVars", Section.VAR_TEMP,
      "inputVars", Section.VAR_INPUT, "outputVars", Section.VAR_OUTPUT, "inOutVars", Section.VAR_IN_OUT,
      "externalVars", Section.VAR_EXTERNAL, "globalVars", Section.VAR_GLOBAL);

  private final Reading reading;
  private final TypeReader types;
  private final BodyReader bodies;

  private ProjectReader(Reading reading) {
    this.reading = reading;
    this.types = new TypeReader(reading);
    this.bodies = new BodyReader(reading);
  }

  /** Whether the outermost element is that of a project in this format. */
  public static boolean reads(XmlNode root) {
    return NAMESPACES.contains(root.namespace());
  }

  /** Everything that a project declares. */
  public static Project read(XmlNode root, LanguageChoices choices, Consumer<Diagnostic> diagnostics) {
    return new ProjectReader(new Reading(choices, diagnostics)).project(root);
  }

  private Project project(XmlNode root) {
    if (!root.name().equals("project")) {
      return reading.outermost(root, "project", Set.of("pou"), (within, pou) -> new ProjectReader(within).unit(pou));
    }
    List<XmlNode> additional = new ArrayList<>();
    additional(root, additional);
    if (!additional.isEmpty()) {
      Diagnostic found = Allowance.ADDITIONAL_DATA.found(reading.choices(), additional.get(0).position(), "<"
          + additional.get(0).name() + "> stands in additional data of one tool, and not where the format has it",
          "export it as a part of the project");
      reading.diagnostics().accept(found);
      if (found.isError()) {
        return new Project(List.of(), List.of());
      }
    }
    List<Declaration> declarations = new ArrayList<>();
    List<Project.Drawing> units = new ArrayList<>();
    reading.only(root, "fileHeader", "contentHeader", "types", "instances");
    root.children("types").forEach(it -> reading.only(it, "dataTypes", "pous"));
    root.below("types", "dataTypes").forEach(it -> reading.only(it, "dataType"));
    root.below("types", "pous").forEach(it -> reading.only(it, "pou"));
    root.below("types", "dataTypes", "dataType").forEach(it -> type(it, declarations));
    root.below("instances", "configurations", "configuration").forEach(it -> configuration(it, declarations));
    root.below("types", "pous", "pou").forEach(pou -> unit(pou).ifPresent(units::add));
    List<XmlNode> resources = new ArrayList<>();
    for (XmlNode node : additional) {
      switch (node.name()) {
        case "dataType" -> type(node, declarations);
        case "globalVars" -> declarations.add(new Declaration.Globals(types.block(node, Section.VAR_GLOBAL)));
        case "pou" -> unit(node).ifPresent(units::add);
        case "resource" -> resources.add(node);
        default -> configuration(node, declarations);
      }
    }
    resources.stream().findFirst().ifPresent(first -> configuration(reading.name(first, "name"), List.of(),
        resources.stream().map(this::resource).toList(), declarations));
    return new Project(declarations, units);
  }

  /** What declares something in additional data of an element, and of those in it that say what runs. */
  private static void additional(XmlNode node, List<XmlNode> found) {
    for (XmlNode data : node.below("addData", "data")) {
      for (XmlNode child : data.children()) {
        if (DECLARING.contains(child.name())) {
          found.add(child);
          additional(child, found);
        }
      }
    }
    for (String inner : List.of("instances", "configurations", "configuration", "resource", "types", "dataTypes",
        "pous")) {
      if (!node.name().equals("pou")) {
        node.children(inner).forEach(child -> additional(child, found));
      }
    }
  }

  private void type(XmlNode node, List<Declaration> declarations) {
    Optional<XmlNode> base = node.child("baseType");
    declarations.add(new Declaration.TypeDeclaration(reading.name(node, "name"),
        base.map(types::type).orElseGet(() -> new TypeSpecification.Unreadable(node.position())),
        types.initial(node)));
    if (base.isEmpty()) {
      reading.error(node.position(), "the type has no baseType", "give it one, or leave the type out");
    }
  }

  /** A configuration without program instances holds global variables only: all programs run. */
  private void configuration(XmlNode node, List<Declaration> declarations) {
    reading.only(node, "resource", "globalVars", "accessVars", "configVars");
    configuration(reading.name(node, "name"), globals(node), node.children("resource").stream().map(this::resource)
        .toList(), declarations);
  }

  private static void configuration(Name name, List<VariableBlock> globals, List<Declaration.Resource> resources,
      List<Declaration> declarations) {
    if (resources.stream().allMatch(resource -> resource.programs().isEmpty())) {
      globals.forEach(block -> declarations.add(new Declaration.Globals(block)));
      resources.forEach(resource -> resource.globals().forEach(block -> declarations.add(
          new Declaration.Globals(block))));
    } else {
      declarations.add(new Declaration.Configuration(name, globals, resources));
    }
  }

  private Declaration.Resource resource(XmlNode node) {
    reading.only(node, "task", "globalVars", "pouInstance");
    List<Declaration.Task> tasks = new ArrayList<>();
    List<Declaration.Instance> programs = new ArrayList<>();
    for (XmlNode task : node.children("task")) {
      reading.only(task, "pouInstance");
      Name name = reading.name(task, "name");
      boolean timeless = task.word("single").isEmpty() && task.word("interval").matches("P[T0-9.HMS]*")
          && !task.word("interval").matches(".*[1-9].*");
      if (timeless) {
        reading.diagnostics().accept(Diagnostic.warning(task.position(), "the interval of the task " + name
            + " is zero here: its programs run once per scan", "state the interval by --scan"));
      } else {
        tasks.add(reading.task(task, name));
      }
      task.children("pouInstance").forEach(it -> programs.add(instance(it, timeless ? Optional.empty()
          : Optional.of(name))));
    }
    node.children("pouInstance").forEach(it -> programs.add(instance(it, Optional.empty())));
    return new Declaration.Resource(Optional.of(reading.name(node, "name")), globals(node), tasks, programs);
  }

  private Declaration.Instance instance(XmlNode node, Optional<Name> task) {
    String type = List.of("typeName", "type").stream().filter(it -> !node.word(it).isEmpty()).findFirst()
        .orElse("name");
    return new Declaration.Instance(reading.name(node, "name"), false, task, reading.name(node, type), List.of());
  }

  private List<VariableBlock> globals(XmlNode owner) {
    for (String refused : List.of("accessVars", "configVars")) {
      owner.child(refused).filter(list -> !list.children().isEmpty()).ifPresent(list -> reading.error(list.position(),
          refused + " are not supported", ""));
    }
    return owner.children("globalVars").stream().map(list -> types.block(list, Section.VAR_GLOBAL)).toList();
  }

  private Optional<Project.Drawing> unit(XmlNode pou) {
    reading.only(pou, "interface", "actions", "transitions", "body");
    pou.children("interface").forEach(it -> reading.only(it, "localVars", "tempVars", "inputVars", "outputVars",
        "inOutVars", "externalVars", "globalVars", "accessVars", "returnType"));
    Optional<Declaration.Kind> kind = switch (pou.word("pouType")) {
      case "program" -> Optional.of(Declaration.Kind.PROGRAM);
      case "function" -> Optional.of(Declaration.Kind.FUNCTION);
      case "functionBlock" -> Optional.of(Declaration.Kind.FUNCTION_BLOCK);
      default -> Optional.empty();
    };
    if (kind.isEmpty()) {
      reading.error(pou.position(), "'" + pou.word("pouType") + "' is no pouType",
          "one of program, function, functionBlock");
      return Optional.empty();
    }
    Name name = reading.name(pou, "name");
    List<VariableBlock> blocks = new ArrayList<>();
    Optional<TypeSpecification> returns = Optional.empty();
    for (XmlNode part : pou.below("interface").stream().flatMap(it -> it.children().stream()).toList()) {
      Section section = SECTIONS.get(part.name());
      if (section != null) {
        blocks.add(types.block(part, section));
      } else if (part.name().equals("returnType")) {
        returns = Optional.of(types.type(part));
      } else if (part.name().equals("accessVars")) {
        reading.error(part.position(), "accessVars are not supported", "");
      }
    }
    List<Sequence.Action> actions = pou.below("actions", "action").stream().map(action -> new Sequence.Action(
        reading.name(action, "name"), held(action))).toList();
    if (pou.children("body").stream().flatMap(body -> body.children().stream()).allMatch(child ->
        child.name().equals("addData")) && pou.children("body").stream().noneMatch(body ->
        Reading.drawnElsewhere(body).isPresent())) {
      reading.lacksBody(pou, name);
    }
    if (blocks.stream().allMatch(block -> block.declarations().isEmpty())) {
      List<XmlNode> holders = new ArrayList<>(pou.children("interface"));
      holders.add(pou);
      Optional<Declaration.Unit> declared = reading.declared(kind.get(), name, holders);
      declared.ifPresent(it -> blocks.addAll(it.blocks()));
      returns = returns.or(() -> declared.flatMap(Declaration.Unit::returns));
    }
    List<XmlNode> transitions = pou.below("transitions", "transition");
    List<Body> held = pou.children("body").stream().flatMap(body -> bodies.body(body, actions, transitions).stream())
        .toList();
    return Optional.of(new Project.Drawing(kind.get(), name, returns, blocks, held, actions, pou.position()));
  }

  private List<Body> held(XmlNode owner) {
    return owner.children("body").stream().flatMap(body -> bodies.body(body, List.of(), List.of()).stream()).toList();
  }
}
