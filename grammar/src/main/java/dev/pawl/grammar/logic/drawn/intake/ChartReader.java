package dev.pawl.grammar.logic.drawn.intake;

import dev.pawl.grammar.logic.drawn.intake.ChartLines.Kind;
import dev.pawl.grammar.logic.drawn.intake.ChartLines.Part;
import dev.pawl.grammar.logic.drawn.tree.Body;
import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.drawn.tree.Element.Link;
import dev.pawl.grammar.logic.drawn.tree.Element.Pin;
import dev.pawl.grammar.logic.drawn.tree.Pins;
import dev.pawl.grammar.logic.drawn.tree.Sequence;
import dev.pawl.grammar.logic.drawn.tree.Sequence.Association;
import dev.pawl.grammar.logic.drawn.tree.Sequence.Condition;
import dev.pawl.grammar.logic.drawn.tree.Sequence.Qualifier;
import dev.pawl.grammar.logic.drawn.xml.XmlNode;
import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.source.Diagnostic;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The reader of sequential function charts. Lines are followed against their direction, as they are exported. */
final class ChartReader {

  private static final Pattern ASSIGNED = Pattern.compile("(?s)\\s*([A-Za-z_][A-Za-z0-9_]*\\s*)?:=");

  private static final Map<String, Kind> KINDS = Map.of("step", Kind.STEP, "jumpStep", Kind.JUMP, "transition",
      Kind.TRANSITION, "selectionDivergence", Kind.SELECTION_DIVERGENCE, "selectionConvergence",
      Kind.SELECTION_CONVERGENCE, "simultaneousDivergence", Kind.SIMULTANEOUS_DIVERGENCE, "simultaneousConvergence",
      Kind.SIMULTANEOUS_CONVERGENCE);

  /** Bodies, which a condition holds within {@code <inline>} only. */
  private static final Set<String> BODIES = Set.of("ST", "LD", "FBD", "IL", "SFC");

  private final Reading reading;
  private final BodyReader bodies;

  ChartReader(Reading reading, BodyReader bodies) {
    this.reading = reading;
    this.bodies = bodies;
  }

  Optional<Sequence> chart(XmlNode body, List<Sequence.Action> actions, List<XmlNode> transitions) {
    return new Chart(body, actions, transitions).read();
  }

  /** One chart while it is read. */
  private final class Chart {

    private final XmlNode body;
    private final List<Sequence.Action> actions;
    private final List<XmlNode> named;
    private final ChartLines lines = new ChartLines(reading);
    private final Map<XmlNode, Part> parts = new LinkedHashMap<>();
    private final Map<XmlNode, List<Association>> associations = new HashMap<>();
    private final List<Sequence.Action> all = new ArrayList<>();

    Chart(XmlNode body, List<Sequence.Action> actions, List<XmlNode> named) {
      this.body = body;
      this.actions = actions;
      this.named = named;
    }

    Optional<Sequence> read() {
      all.addAll(actions);
      for (XmlNode node : body.children()) {
        Kind kind = KINDS.getOrDefault(node.name(), Kind.OTHER);
        Part part = new Part(kind, node.name(), node.word(kind == Kind.JUMP ? "targetName" : "name"),
            kind != Kind.OTHER || node.name().equals("actionBlock") ? bodies.links(node) : List.of(), node);
        parts.put(node, part);
        reading.whole(node, "localId").ifPresent(id -> {
          if (lines.has(id)) {
            reading.error(node.position(), "the localId " + id + " occurs twice in this body", "");
          }
          lines.add(id, part);
        });
        if (reading.flag(node, "negated") && (node.name().equals("step") || node.name().equals("actionBlock"))) {
          reading.error(node.position(), "<" + node.name() + "> is negated, and what that does is not stated",
              "draw it without");
        }
        if (node.name().equals("macroStep")) {
          reading.error(node.position(), "macro steps are not supported", "draw their steps in the chart itself");
        }
      }
      of("actionBlock").forEach(this::associate);
      actionsElsewhere();
      lines.follow();
      List<Sequence.Step> steps = of("step").stream().map(node -> new Sequence.Step(reading.name(node, "name"),
          isInitial(node), associations.getOrDefault(node, List.of()))).toList();
      List<Sequence.Transition> transitions = of("transition").stream()
          .sorted(Comparator.comparingDouble(this::left)).map(this::transition).toList();
      return Optional.of(new Sequence(steps, transitions, all, bodies.elements(body), body.position()));
    }

    /** A step that says so in a wrong way was meant to be one. */
    private boolean isInitial(XmlNode step) {
      return reading.flag(step, "initialStep") || !Set.of("", "false", "0").contains(step.word("initialStep"));
    }

    private List<XmlNode> of(String name) {
      return body.children(name);
    }

    private double left(XmlNode node) {
      return node.child("position").map(at -> reading.number(at, "x", 0)).orElse(0.0);
    }

    private Sequence.Transition transition(XmlNode node) {
      List<String> from = lines.left(parts.get(node));
      Optional<XmlNode> condition = node.child("condition");
      Optional<Name> name = condition.flatMap(it -> it.child("reference")).map(it -> new Name(it.word("name"),
          it.position()));
      return new Sequence.Transition(name, reading.whole(node, "priority").orElse(0L), from,
          lines.entered(parts.get(node)), condition.map(this::condition).orElseGet(() -> missing(node)),
          condition.map(it -> reading.flag(it, "negated")).orElse(false), node.position());
    }

    private Condition missing(XmlNode node) {
      return ChartReader.missing(lines, node, reading);
    }

    private Condition condition(XmlNode node) {
      Optional<XmlNode> reference = node.child("reference");
      if (reference.isPresent()) {
        String wanted = reference.get().word("name");
        return named.stream().filter(it -> it.word("name").equalsIgnoreCase(wanted)).findFirst()
            .flatMap(it -> it.child("body").map(held -> held(held, wanted)))
            .orElseGet(() -> new Sequence.Expressed(new Fragment(wanted, reference.get().position())));
      }
      Optional<XmlNode> inline = node.child("inline");
      if (inline.isPresent()) {
        return held(inline.get(), inline.get().word("name"));
      }
      if (node.children().stream().anyMatch(it -> BODIES.contains(it.name()))) {
        reading.only(node, "reference", "inline", "connectionPointIn", "connection");
        return never(node);
      }
      List<Link> links = new ArrayList<>(bodies.links(node));
      node.children("connection").forEach(connection -> reading.whole(connection, "refLocalId")
          .ifPresent(from -> links.add(new Link(from, connection.word("formalParameter")))));
      if (links.isEmpty()) {
        return missing(node);
      }
      return new Sequence.Beside(new Pin("", false, Element.Edge.NONE, Element.Storage.NONE, links, node.position()));
    }

    private Condition held(XmlNode holder, String name) {
      Optional<Body> body = bodies.body(holder, List.of(), List.of());
      return holder.child("IL").isPresent() ? never(holder)
          : body.flatMap(it -> within(it, name)).orElseGet(() -> missing(holder));
    }

    /** Tells of what steps do by additional data of a tool, which is not read. */
    private void actionsElsewhere() {
      boolean none = of("actionBlock").isEmpty();
      Optional<XmlNode> doubtful = Optional.empty();
      for (XmlNode step : of("step")) {
        List<String> beside = step.below("addData", "data").stream().flatMap(Reading::all).map(it -> it.text().strip())
            .filter(it -> !it.isEmpty()).toList();
        Optional<String> action = actions.stream().map(it -> it.name().text()).filter(it -> beside.stream().anyMatch(
            it::equalsIgnoreCase) && associations.getOrDefault(step, List.of()).stream().noneMatch(own ->
            own.target().text().strip().equalsIgnoreCase(it))).findFirst();
        action.ifPresent(it -> reading.error(step.position(), "the action " + it + " of this step stands in additional"
            + " data of one tool, and in no action block", "export the chart with its action blocks"));
        doubtful = doubtful.or(() -> Optional.of(step).filter(unused -> none && action.isEmpty()
            && !beside.isEmpty()));
      }
      doubtful.ifPresent(step -> reading.diagnostics().accept(Diagnostic.warning(step.position(), "no step of this"
          + " chart has an action block: what they do may stand in additional data of one tool, which is passed over",
          "compare it with the chart as it was drawn")));
    }

    private void associate(XmlNode block) {
      for (Part step : stepsOf(lines, parts.get(block), reading)) {
        block.children("action").forEach(action -> associations.computeIfAbsent(step.node(),
            unused -> new ArrayList<>()).add(association(action)));
      }
    }

    private Association association(XmlNode action) {
      Optional<XmlNode> inline = action.child("inline");
      Fragment target = action.child("reference").map(it -> Reading.attribute(it, "name")).orElseGet(() ->
          new Fragment("", action.position()));
      if (inline.isPresent()) {
        String name = "action " + action.position().line() + " " + action.position().column();
        target = new Fragment(name, action.position());
        all.add(new Sequence.Action(new Name(name, action.position()),
            bodies.body(inline.get(), List.of(), List.of()).stream().toList()));
      } else if (target.text().isBlank()) {
        reading.error(action.position(), "the action has neither a name nor a body", "");
      }
      return new Association(qualifier(action, action, reading), time(action, reading), target, action.position());
    }
  }

  // ---- what both formats have

  /** Tells that a transition has no condition. */
  static Condition missing(ChartLines lines, XmlNode node, Reading reading) {
    if (lines.isNews(node)) {
      reading.error(node.position(), "the transition has no condition", "one that is always met is TRUE");
    }
    return never(node);
  }

  /** The condition where something wrong with it has been told. */
  static Condition never(XmlNode node) {
    return new Sequence.Expressed(new Fragment("FALSE", node.position()));
  }

  /** A condition in a body of its own: an expression, or a drawing that gives a value to the transition's name. */
  static Optional<Condition> within(Body body, String name) {
    if (body instanceof Body.Written written) {
      return Optional.of(new Sequence.Expressed(expression(written.text())));
    }
    if (body instanceof Body.Networks networks) {
      for (Element element : networks.elements()) {
        Optional<Fragment> target = element instanceof Element.Coil coil ? Optional.of(coil.variable())
            : element instanceof Element.Sink sink ? Optional.of(sink.variable()) : Optional.empty();
        if (target.filter(it -> it.text().strip().equalsIgnoreCase(name)).isPresent()) {
          return Optional.of(new Sequence.Drawn(networks.elements(), Pins.in(element).get(0)));
        }
      }
    }
    return Optional.empty();
  }

  /** The steps that an action block belongs to. */
  static List<Part> stepsOf(ChartLines lines, Part block, Reading reading) {
    List<Part> before = lines.before(block);
    before.stream().filter(part -> part.kind() != Kind.STEP).forEach(part -> reading.error(block.node().position(),
        "an action block belongs to a step, but this one follows <" + part.word() + ">", ""));
    return before.stream().filter(part -> part.kind() == Kind.STEP).toList();
  }

  /** The qualifier that an element states; N where it states none, and after a message at the action. */
  static Qualifier qualifier(XmlNode node, XmlNode action, Reading reading) {
    String word = node.word("qualifier").isEmpty() ? "N" : node.word("qualifier");
    Optional<Qualifier> qualifier = Qualifier.named(word);
    if (qualifier.isEmpty()) {
      reading.error(action.position(), "'" + word + "' is no qualifier of an action",
          "one of N, R, S, L, D, P, P0, P1, SD, DS, SL");
    }
    return qualifier.orElse(Qualifier.N);
  }

  /** The time of an action, if its element states one. */
  static Optional<Expression> time(XmlNode node, Reading reading) {
    return node.word("duration").isEmpty() ? Optional.empty()
        : Optional.of(reading.expression(Reading.attribute(node, "duration"), "the time"));
  }

  /** The condition in {@code a AND b}, {@code := a AND b;} or {@code name := a AND b;}. */
  static Fragment expression(Fragment text) {
    String words = text.text();
    Matcher assigned = ASSIGNED.matcher(words);
    if (assigned.lookingAt()) {
      String gone = words.substring(0, assigned.end()).replaceAll("[^\n]", " ");
      words = gone + words.substring(assigned.end());
    }
    words = words.stripTrailing();
    return new Fragment(words.endsWith(";") ? words.substring(0, words.length() - 1) : words, text.start());
  }
}
