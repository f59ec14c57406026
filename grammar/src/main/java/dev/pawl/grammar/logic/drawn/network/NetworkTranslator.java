package dev.pawl.grammar.logic.drawn.network;

import dev.pawl.grammar.logic.drawn.Item;
import dev.pawl.grammar.logic.drawn.tree.Element;
import dev.pawl.grammar.logic.drawn.tree.Element.Edge;
import dev.pawl.grammar.logic.drawn.tree.Element.Link;
import dev.pawl.grammar.logic.drawn.tree.Element.Pin;
import dev.pawl.grammar.logic.drawn.tree.Element.Storage;
import dev.pawl.grammar.logic.drawn.tree.Pins;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Expression.BinaryOperator;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.logic.tree.TypeSpecification;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The translator of a ladder or function block diagram: element by element in the order of their evaluation. Jumps
 * lead from one stretch between labels to another, in a loop that goes on at the stretch a counter names.
 */
public final class NetworkTranslator implements Element.Visitor<Void> {

  private final Surroundings around;
  private final Diagram diagram;
  private final List<Taken> outside;
  private final Calls calls;
  private final Map<String, Integer> labels = new HashMap<>();

  /** The stretch of each element, and the one at hand. */
  private final Map<Long, Diagram.Stretch> homes = new HashMap<>();
  private Diagram.Stretch here;
  private final Map<Link, Name> lastTime = new HashMap<>();
  private final Map<Link, Integer> takers = new HashMap<>();
  private final Set<Long> evaluated = new HashSet<>();
  private final Set<String> shared;
  private final Optional<Name> counter;
  private final Listing listing;
  private final Seen seen;
  private List<Statement> out = new ArrayList<>();
  private Carried wires;

  /**
   * What takes something from a diagram without being in it, such as a transition.
   *
   * @param by where that stands
   */
  public record Taken(Pin pin, Position by) {}

  /**
   * What it takes.
   *
   * @param wires where that comes from, in the list of what is drawn
   */
  public record Given(Expression value, List<Item.Wire> wires) {}

  private NetworkTranslator(List<Element> elements, List<Taken> outside, Surroundings around) {
    this.around = around;
    this.diagram = new Diagram(elements, it -> around.error(it.position(), it.message(), it.hint()));
    this.calls = new Calls(this, around);
    this.shared = around.shared();
    boolean jumps = elements.stream().anyMatch(Element.Jump.class::isInstance);
    this.counter = jumps ? Optional.of(around.hidden().fresh("stretch", around.unit().position())) : Optional.empty();
    this.outside = outside.stream().map(it -> new Taken(diagram.followed(it.pin()), it.by())).toList();
    this.outside.forEach(taken -> count(taken.pin()));
    elements.forEach(element -> around.legend().note(element.head().position(), place(element)));
    diagram.elements().forEach(element -> Pins.in(element).forEach(this::count));
    this.seen = new Seen(diagram, this, calls, around);
    this.listing = Listing.add(diagram, this.outside, this::place, around.legend());
  }

  private void count(Pin pin) {
    for (Link link : pin.links()) {
      takers.merge(output(link), 1, Integer::sum);
    }
  }

  /** The statements that mean the same as a diagram. */
  public static List<Statement> translate(List<Element> elements, Surroundings around) {
    return new NetworkTranslator(elements, List.of(), around).statements();
  }

  /**
   * What is taken from a diagram from outside.
   *
   * @param out is given the statements of the whole diagram
   */
  public static List<Given> values(List<Element> elements, List<Taken> outside, Surroundings around,
      List<Statement> out) {
    return new NetworkTranslator(elements, outside, around).values(out);
  }

  // ---- networks and stretches

  private List<Statement> statements() {
    List<Diagram.Stretch> stretches = diagram.stretches();
    for (int i = 0; i < stretches.size(); i++) {
      for (String label : stretches.get(i).labels()) {
        labels.put(label, i);
      }
      for (Element element : stretches.get(i).elements()) {
        homes.put(element.head().id(), stretches.get(i));
      }
    }
    stretches.forEach(this::rememberOthers);
    List<List<Statement>> bodies = new ArrayList<>();
    for (Diagram.Stretch stretch : stretches) {
      here = stretch;
      out = new ArrayList<>();
      wires = new Carried(around.hidden(), out, shared);
      evaluate(stretch.elements());
      bodies.add(out);
    }
    return counter.map(name -> inLoop(name, bodies)).orElseGet(() -> bodies.stream().flatMap(List::stream).toList());
  }

  /** Wires that lead over a label carry what came out when their element was last evaluated: a jump may skip it. */
  private void rememberOthers(Diagram.Stretch stretch) {
    for (Element element : stretch.elements()) {
      for (Pin pin : Pins.in(element)) {
        for (Link link : pin.links()) {
          if (homes.getOrDefault(link.from(), stretch) != stretch && !isRead(link)) {
            remember(output(link));
          }
        }
      }
    }
  }

  private void evaluate(List<Element> elements) {
    Map<Long, Integer> places = new HashMap<>();
    for (int i = 0; i < elements.size(); i++) {
      places.put(elements.get(i).head().id(), i);
    }
    for (int i = 0; i < elements.size(); i++) {
      for (Pin pin : Pins.in(elements.get(i))) {
        for (Link link : pin.links()) {
          if (places.getOrDefault(link.from(), -1) >= i && !isRead(link)) {
            remember(output(link));
          }
        }
      }
    }
    for (Element element : elements) {
      seen.before(element);
      element.accept(this);
      evaluated.add(element.head().id());
      seen.after(element);
    }
  }

  /** Whether a wire comes from what is read where it is used, and so has no place in the order. */
  boolean isRead(Link link) {
    Element source = diagram.element(link.from()).orElseThrow();
    return source instanceof Element.Source read && read.edge() == Edge.NONE
        || source instanceof Element.Sink sink && sink.passes() && sink.in().links().isEmpty();
  }

  private List<Statement> inLoop(Name counter, List<List<Statement>> bodies) {
    Position position = around.unit().position();
    List<Statement.Choice> choices = new ArrayList<>();
    for (int i = 0; i < bodies.size(); i++) {
      List<Statement> body = new ArrayList<>(bodies.get(i));
      body.add(goTo(counter, i + 1, position));
      choices.add(new Statement.Choice(List.of(new Statement.Label(Terms.number(i, position), Optional.empty())),
          body));
    }
    Expression goesOn = new Expression.Binary(BinaryOperator.LESS, Terms.name(counter),
        Terms.number(bodies.size(), position), position);
    return List.of(goTo(counter, 0, position), new Statement.While(goesOn, List.of(new Statement.Case(
        Terms.name(counter), choices, Optional.empty(), position)), position));
  }

  private static Statement goTo(Name counter, int stretch, Position position) {
    return new Statement.Wire(counter, Terms.number(stretch, position), Optional.empty(), position);
  }

  private List<Given> values(List<Statement> statements) {
    if (counter.isPresent()) {
      around.error(around.unit().position(), "a diagram beside the steps of a chart has no jumps", "");
    }
    out = statements;
    wires = new Carried(around.hidden(), out, shared);
    diagram.stretches().forEach(stretch -> evaluate(stretch.elements()));
    return outside.stream().map(taken -> new Given(value(taken.pin(), "the transition"),
        listing.wires(taken.pin(), "condition"))).toList();
  }

  private String place(Element element) {
    int number = diagram.number(element);
    String network = number > 0 ? ", network " + number : "";
    return around.unit().name() + network + ", " + element.accept(Descriptions.OF);
  }

  // ---- wires

  /** The output that a wire comes from, by its full name. */
  Link output(Link link) {
    Optional<Element> source = diagram.element(link.from());
    if (source.isEmpty() || !(source.get() instanceof Element.Block block)) {
      return new Link(link.from(), "");
    }
    String name = link.output();
    List<Pin> given = new ArrayList<>(block.outputs());
    given.addAll(block.passed());
    Optional<Pin> named = given.stream().filter(pin -> pin.name().equalsIgnoreCase(name)).findFirst();
    Optional<Pin> only = name.isEmpty() || given.size() == 1 && calls.isPlain(block.type())
        ? block.outputs().stream().filter(pin -> !Calls.isEno(pin)).findFirst() : Optional.empty();
    return new Link(link.from(), named.or(() -> only).map(Pin::name).orElse(name).toUpperCase(Locale.ROOT));
  }

  boolean wasEvaluated(long id) {
    return evaluated.contains(id);
  }

  /** Where an output is kept from scan to scan; nothing where no earlier element takes it. */
  Optional<Name> lastTime(Link output) {
    return Optional.ofNullable(lastTime.get(output));
  }

  int takers(Link output) {
    return takers.getOrDefault(output, 0);
  }

  List<Statement> out() {
    return out;
  }

  Carried wires() {
    return wires;
  }

  /** Puts a value on the wire from an output, and keeps it for the next scan where an earlier element takes it then. */
  void give(Link output, Expression value, Optional<Expression> guard, Position position) {
    give(output, value, guard, false, position);
  }

  /**
   * The same.
   *
   * @param keeps whether the value is what it was before where the guard does not hold
   */
  void give(Link output, Expression value, Optional<Expression> guard, boolean keeps, Position position) {
    Name kept = lastTime.get(output);
    Optional<Expression> carried = seen.carried(output, value, guard.filter(unused -> !keeps), position);
    if (kept == null && carried.isPresent()) {
      wires.putSettled(output, carried.get(), guard, takers(output), position);
      return;
    }
    if (kept == null) {
      wires.put(output, value, guard, keeps, takers(output), position);
      return;
    }
    Expression settled = carried.orElseGet(() -> wires.wire(value, guard.filter(unused -> !keeps), position));
    wires.writes(Terms.name(kept));
    out.add(Terms.assign(Terms.name(kept), settled, position));
    wires.putSettled(output, settled, guard, takers(output), position);
  }

  /** What an input takes: all its wires joined by OR, then its own edge and negation. */
  Expression value(Pin pin, String what) {
    if (pin.links().isEmpty()) {
      around.error(pin.position(), "nothing is connected to " + what, "draw its wire, or leave the element out");
      return Terms.truth(false, pin.position());
    }
    List<Expression> values = new ArrayList<>();
    for (Link link : pin.links()) {
      values.add(value(link, pin.position()));
    }
    Expression joined = joined(values, (left, right) -> Terms.or(left, right, pin.position()), pin.position());
    if (pin.storage() != Storage.NONE) {
      around.error(pin.position(), "what goes into " + what + " is not set or reset", "");
    }
    Expression sensed = sensed(joined, pin.edge(), pin.position());
    return pin.negated() ? Terms.not(sensed, pin.position()) : sensed;
  }

  /** All values joined into one; of so many that they would nest too deeply, some at a time go over a wire. */
  Expression joined(List<Expression> values, BiFunction<Expression, Expression, Expression> join, Position position) {
    Expression joined = values.get(0);
    for (int i = 1; i < values.size(); i++) {
      joined = join.apply(i % Carried.LARGEST == 0 ? wires.wire(joined, Optional.empty(), position) : joined,
          values.get(i));
    }
    return joined;
  }

  private Expression value(Link link, Position position) {
    Optional<Element> source = diagram.element(link.from());
    if (source.isEmpty()) {
      if (!diagram.isAmbiguous()) {
        around.error(position, "the connection comes from localId " + link.from() + ", which is not in this body",
            "draw the wire again");
      }
      return Terms.truth(false, position);
    }
    if (source.get() instanceof Element.LeftRail) {
      return Terms.truth(true, position);
    }
    if (source.get() instanceof Element.Source read && read.edge() == Edge.NONE) {
      Expression value = around.expression(read.expression(), "what is read");
      return read.negated() ? Terms.not(value, read.head().position()) : value;
    }
    if (source.get() instanceof Element.Sink sink && sink.passes() && sink.in().links().isEmpty()) {
      return around.expression(sink.variable(), "the variable");
    }
    Link output = output(link);
    if (!link.output().isEmpty() && source.get() instanceof Element.Block block
        && !output.output().equalsIgnoreCase(link.output())) {
      around.diagnostics().accept(Diagnostic.warning(position, "the connection names the output " + link.output()
          + " of the block " + block.type() + ", which has one of another name only: that is taken",
          "compare it with what is drawn"));
    }
    if (wires.has(output)) {
      return wires.take(output);
    }
    Name kept = lastTime.get(output);
    if (kept != null) {
      return Terms.name(kept);
    }
    boolean earlier = evaluated.contains(link.from()) && homes.getOrDefault(link.from(), here) == here;
    if (source.get() instanceof Element.Block block && !earlier && calls.isInstance(block)) {
      return calls.output(block, output.output(), position);
    }
    around.error(position, "the connection comes from " + source.get().accept(Descriptions.OF)
        + (source.get() instanceof Element.Block ? ", which has no output '" + link.output() + "'"
        : ", which gives nothing"), source.get() instanceof Element.Block block ? "its outputs are "
        + block.outputs().stream().map(Pin::name).collect(Collectors.joining(", "))
        : "draw it from an element that gives a value");
    return Terms.truth(false, position);
  }

  /** Makes memory for what an element takes before it is worked out; an instance has that memory itself. */
  private void remember(Link output) {
    Element source = diagram.element(output.from()).orElseThrow();
    boolean remembers = source instanceof Element.Block block && calls.isInstance(block)
        && !output.output().equals("ENO") && diagram.isOnly(block);
    if (remembers || lastTime.containsKey(output) || lacks(source, output)) {
      return;
    }
    Position position = source.head().position();
    Optional<TypeSpecification> type = new DrawnTypes(diagram, around).of(output);
    if (type.isEmpty()) {
      around.error(position,
          "this leads back to an element that is evaluated before it, and what type it has cannot be "
          + "told", "lead it back through a variable");
    }
    lastTime.put(output, type.map(it -> around.hidden().kept("last", it, Optional.empty(), position))
        .orElseGet(() -> around.hidden().kept("last", "BOOL", position)));
  }

  /** Whether an output is none of its element, which is told where it is taken. */
  private boolean lacks(Element source, Link output) {
    return source instanceof Element.Block block && !calls.isInstance(block)
        && Stream.concat(block.outputs().stream(), block.passed().stream())
            .noneMatch(pin -> pin.name().equalsIgnoreCase(output.output()));
  }

  /** A condition, or its edge since the last evaluation. */
  Expression sensed(Expression value, Edge edge, Position position) {
    if (edge == Edge.NONE) {
      return value;
    }
    Name before = around.hidden().kept("before", "BOOL", position);
    Expression now = wires.wire(value, Optional.empty(), position);
    Expression rising = edge == Edge.RISING ? Terms.and(now, Terms.not(Terms.name(before), position), position)
        : Terms.and(Terms.not(now, position), Terms.name(before), position);
    Expression sensed = wires.wire(rising, Optional.empty(), position);
    out.add(Terms.assign(Terms.name(before), now, position));
    return sensed;
  }

  /** What a condition has become known to be; worked out once though used more than once. */
  Expression once(Expression value, Position position) {
    return wires.wire(value, Optional.empty(), position);
  }

  // ---- elements

  @Override
  public Void visit(Element.Contact e) {
    Position position = e.head().position();
    Expression power = value(e.in(), "the contact");
    Expression variable = Terms.required(around.expression(e.variable(), "the variable of the contact"), "BOOL",
        "the variable of a contact");
    if (e.negated() && e.edge() != Edge.NONE) {
      around.error(position, "a contact is either negated or waits for an edge", "");
    }
    Expression closed = sensed(variable, e.edge(), position);
    give(new Link(e.head().id(), ""), Terms.and(power, e.negated() ? Terms.not(closed, position) : closed, position),
        Optional.empty(), position);
    return null;
  }

  @Override
  public Void visit(Element.Coil e) {
    Position position = e.head().position();
    Link own = new Link(e.head().id(), "");
    boolean goesOn = takers(own) > 0 || lastTime.containsKey(own);
    Expression drawn = value(e.in(), "the coil");
    Expression power = goesOn ? once(drawn, position) : drawn;
    if (goesOn) {
      give(own, power, Optional.empty(), position);
    }
    if (e.negated() && e.edge() != Edge.NONE) {
      around.error(position, "a coil is either negated or waits for an edge", "");
    }
    around.target(e.variable(), "the variable").ifPresent(target -> {
      written(target, e, e.storage(), Optional.empty());
      store(Terms.required(target, "BOOL", "the variable of a coil"), power, e.negated(), e.edge(), e.storage(),
          Optional.empty(), position);
    });
    return null;
  }

  @Override
  public Void visit(Element.Sink e) {
    Position position = e.head().position();
    if (e.passes() && e.in().links().isEmpty()) {
      return null;
    }
    List<Link> links = e.in().links();
    Optional<Expression> guard = links.size() != 1 || !wires.has(output(links.get(0))) ? Optional.empty()
        : wires.guard(output(links.get(0)));
    Expression value = guard.isPresent() && e.in().edge() == Edge.NONE ? guarded(e.in(), output(links.get(0)))
        : value(e.in(), "the variable");
    around.target(e.variable(), "the variable").ifPresent(target -> {
      written(target, e, e.storage(), guard);
      store(target, value, e.negated(), e.edge(), e.storage(), guard, position);
    });
    if (e.passes()) {
      give(new Link(e.head().id(), ""), around.expression(e.variable(), "the variable"), Optional.empty(), position);
    }
    return null;
  }

  private Expression guarded(Pin pin, Link output) {
    Expression value = wires.takeGuarded(output);
    return pin.negated() ? Terms.not(value, pin.position()) : value;
  }

  /** Notes what writes a variable; what a block gives only while its EN is TRUE is meant to let others do so too. */
  private void written(Expression target, Element element, Storage storage, Optional<Expression> guard) {
    if (guard.isEmpty()) {
      boolean sometimes = storage != Storage.NONE;
      Optional<Object> place = counter.isPresent() ? Optional.of(List.of(around.action(), diagram.number(element)))
          : around.action().map(Object.class::cast);
      around.writers().note(target, sometimes ? Writers.Manner.SOMETIMES : Writers.Manner.ALWAYS, place,
          element.head().position());
    }
  }

  private void store(Expression target, Expression value, boolean negated, Edge edge,
      Storage storage, Optional<Expression> guard, Position position) {
    Expression sensed = sensed(value, edge, position);
    Expression given = negated ? Terms.not(sensed, position) : sensed;
    wires.writes(target);
    if (storage == Storage.NONE) {
      out.addAll(Terms.when(guard.orElse(Terms.truth(true, position)),
          List.of(Terms.assign(target, given, position)), position));
    } else {
      out.addAll(Terms.when(given, List.of(Terms.assign(target,
          Terms.truth(storage == Storage.SET, position), position)), position));
    }
  }

  @Override
  public Void visit(Element.Source e) {
    if (e.edge() != Edge.NONE) {
      Position position = e.head().position();
      Expression sensed = sensed(around.expression(e.expression(), "what is read"), e.edge(), position);
      give(new Link(e.head().id(), ""), e.negated() ? Terms.not(sensed, position) : sensed, Optional.empty(), position);
    }
    return null;
  }

  @Override
  public Void visit(Element.Block e) {
    calls.evaluate(e);
    return null;
  }

  @Override
  public Void visit(Element.Jump e) {
    Position position = e.head().position();
    Integer stretch = labels.get(e.label().toUpperCase(Locale.ROOT));
    Expression power = value(e.in(), "the jump");
    if (stretch == null) {
      around.error(position, "there is no label " + e.label() + " in this body",
          NearName.hint(e.label(), List.copyOf(labels.keySet())).orElse("draw it at the network to go on with"));
    } else {
      settleAll();
      out.addAll(conditionally(e.negated() ? Terms.not(power, position) : power,
          List.of(goTo(counter.orElseThrow(), stretch, position), new Statement.Continue(position)), position));
    }
    return null;
  }

  @Override
  public Void visit(Element.Return e) {
    Position position = e.head().position();
    Expression power = value(e.in(), "the return");
    settleAll();
    out.addAll(conditionally(e.negated() ? Terms.not(power, position) : power,
        List.of(new Statement.Return(position)), position));
    return null;
  }

  private void settleAll() {
    wires.writesAnything();
  }

  /** In an IF also where the condition is always met: what follows must not look as if it could never run. */
  private static List<Statement> conditionally(Expression condition, List<Statement> body, Position position) {
    return List.of(new Statement.If(List.of(new Statement.Branch(condition, body, position)), List.of(), position));
  }

  @Override public Void visit(Element.LeftRail e) { return null; }
  @Override public Void visit(Element.RightRail e) { return null; }
  @Override public Void visit(Element.Label e) { return null; }
  @Override public Void visit(Element.Connector e) { return null; }
  @Override public Void visit(Element.Continuation e) { return null; }
}
