package dev.pawl.grammar.logic.drawn.intake;

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
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The reader of sequential function charts. Lines are followed against their direction, as they are exported. */
final class ChartReader {

  private static final Pattern ASSIGNED = Pattern.compile("(?s)\\s*([A-Za-z_][A-Za-z0-9_]*\\s*)?:=");

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
    private final Map<Long, XmlNode> nodes = new LinkedHashMap<>();
    private final Map<XmlNode, List<Association>> associations = new HashMap<>();
    private final Map<XmlNode, Set<String>> entered = new HashMap<>();
    private final List<Sequence.Action> all = new ArrayList<>();
    private final Set<XmlNode> told = new HashSet<>();

    Chart(XmlNode body, List<Sequence.Action> actions, List<XmlNode> named) {
      this.body = body;
      this.actions = actions;
      this.named = named;
    }

    Optional<Sequence> read() {
      all.addAll(actions);
      for (XmlNode node : body.children()) {
        reading.whole(node, "localId").ifPresent(id -> {
          if (nodes.putIfAbsent(id, node) != null) {
            reading.error(node.position(), "the localId " + id + " occurs twice in this body", "");
          }
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
      for (XmlNode node : body.children()) {
        if (node.name().equals("step")) {
          enter(node, node.word("name"));
        } else if (node.name().equals("jumpStep")) {
          enter(node, node.word("targetName"));
        }
      }
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

    private List<XmlNode> before(XmlNode node) {
      List<XmlNode> before = new ArrayList<>();
      for (Link link : bodies.links(node)) {
        XmlNode from = nodes.get(link.from());
        if (from == null) {
          wrong(node, "the connection comes from localId " + link.from() + ", which is not here", "draw it again");
        } else {
          before.add(from);
        }
      }
      return before;
    }

    /** Notes of each transition before a step, or before a jump to it, that it enters the step. */
    private void enter(XmlNode node, String step) {
      up(node, step, new LinkedHashSet<>());
    }

    private void up(XmlNode node, String step, Set<XmlNode> seen) {
      for (XmlNode before : before(node)) {
        switch (before.name()) {
          case "transition" -> entered.computeIfAbsent(before, unused -> new LinkedHashSet<>())
              .add(step.toUpperCase(Locale.ROOT));
          case "selectionConvergence", "simultaneousDivergence" -> {
            if (seen.add(before)) {
              up(before, step, seen);
            }
          }
          default -> wrong(node, "between two steps there is a transition, but <" + before.name()
              + "> leads straight to <" + node.name() + "> here", "draw the transition between them");
        }
      }
    }

    /** The steps that a transition leaves. */
    private void left(XmlNode node, Set<String> steps, Set<XmlNode> seen) {
      for (XmlNode before : before(node)) {
        switch (before.name()) {
          case "step" -> steps.add(before.word("name").toUpperCase(Locale.ROOT));
          case "selectionDivergence", "simultaneousConvergence" -> {
            if (seen.add(before)) {
              left(before, steps, seen);
            }
          }
          default -> wrong(node, "between two transitions there is a step, but <" + before.name()
              + "> leads straight to <" + node.name() + "> here", "draw the step between them");
        }
      }
    }

    private double left(XmlNode node) {
      return node.child("position").map(at -> reading.number(at, "x", 0)).orElse(0.0);
    }

    private Sequence.Transition transition(XmlNode node) {
      Set<String> steps = new LinkedHashSet<>();
      left(node, steps, new LinkedHashSet<>());
      Set<String> next = entered.getOrDefault(node, Set.of());
      if (steps.isEmpty()) {
        wrong(node, "the transition follows no step", "connect it to the step that it ends, or leave it out");
      } else if (next.isEmpty()) {
        wrong(node, "the transition leads to no step", "connect the step that comes next, or a jump to it");
      }
      Optional<XmlNode> condition = node.child("condition");
      Optional<Name> name = condition.flatMap(it -> it.child("reference")).map(it -> new Name(it.word("name"),
          it.position()));
      return new Sequence.Transition(name, reading.whole(node, "priority").orElse(0L), List.copyOf(steps),
          List.copyOf(next), condition.map(this::condition).orElseGet(() -> missing(node)),
          condition.map(it -> reading.flag(it, "negated")).orElse(false), node.position());
    }

    /** Tells what is wrong with an element of the chart, once: the rest follows from it. */
    private void wrong(XmlNode node, String message, String hint) {
      if (told.add(node)) {
        reading.error(node.position(), message, hint);
      }
    }

    private Condition missing(XmlNode node) {
      wrong(node, "the transition has no condition", "one that is always met is TRUE");
      return new Sequence.Expressed(new Fragment("FALSE", node.position()));
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
      List<Link> links = new ArrayList<>(bodies.links(node));
      node.children("connection").forEach(connection -> reading.whole(connection, "refLocalId")
          .ifPresent(from -> links.add(new Link(from, connection.word("formalParameter")))));
      if (links.isEmpty()) {
        return missing(node);
      }
      return new Sequence.Beside(new Pin("", false, Element.Edge.NONE, Element.Storage.NONE, links, node.position()));
    }

    /** A condition with a body of its own: an expression, or a drawing that gives a value to the transition's name. */
    private Condition held(XmlNode holder, String name) {
      Optional<Body> body = bodies.body(holder, List.of(), List.of());
      if (holder.child("IL").isPresent()) {
        return new Sequence.Expressed(new Fragment("FALSE", holder.position()));
      }
      if (body.isPresent() && body.get() instanceof Body.Written written) {
        return new Sequence.Expressed(expression(written.text()));
      }
      if (body.isPresent() && body.get() instanceof Body.Networks networks) {
        for (Element element : networks.elements()) {
          Optional<Fragment> target = element instanceof Element.Coil coil ? Optional.of(coil.variable())
              : element instanceof Element.Sink sink ? Optional.of(sink.variable()) : Optional.empty();
          if (target.filter(it -> it.text().strip().equalsIgnoreCase(name)).isPresent()) {
            return new Sequence.Drawn(networks.elements(), Pins.in(element).get(0));
          }
        }
      }
      return missing(holder);
    }

    private void associate(XmlNode block) {
      List<XmlNode> steps = before(block);
      for (XmlNode step : steps) {
        if (!step.name().equals("step")) {
          reading.error(block.position(), "an action block belongs to a step, but this one follows <" + step.name()
              + ">", "");
        } else {
          block.children("action").forEach(action -> associations.computeIfAbsent(step, unused -> new ArrayList<>())
              .add(association(action)));
        }
      }
    }

    private Association association(XmlNode action) {
      String word = action.word("qualifier").isEmpty() ? "N" : action.word("qualifier");
      Optional<Qualifier> qualifier = Qualifier.named(word);
      if (qualifier.isEmpty()) {
        reading.error(action.position(), "'" + word + "' is no qualifier of an action",
            "one of N, R, S, L, D, P, P0, P1, SD, DS, SL");
      }
      Optional<Expression> time = action.word("duration").isEmpty() ? Optional.empty()
          : Optional.of(reading.expression(Reading.attribute(action, "duration"), "the time"));
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
      return new Association(qualifier.orElse(Qualifier.N), time, target, action.position());
    }
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
