package dev.pawl.logic;

import dev.pawl.grammar.logic.model.CheckedProgram;
import dev.pawl.grammar.logic.model.CheckedProgram.Symbol;
import dev.pawl.grammar.logic.model.Step;
import dev.pawl.grammar.logic.model.Task;
import dev.pawl.grammar.logic.model.Unit;
import dev.pawl.grammar.logic.model.Variable;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * Which signal of a rule book is which variable of a program. They are matched by name, case ignored; other pairs can
 * be stated. A signal whose variable is an input of the program feeds it; one whose variable is not is fed by it. Input
 * signals without a variable are passed on as the trace has them: the drive's feedback, say, which no program computes.
 * Any other signal without a variable is an error unless it is stated to be taken as recorded, since what the trace
 * says about it is not what this program does.
 */
public final class SignalBinding {

  /** As many are told of one by one. */
  private static final int FEW = 3;

  private final Link[] links;
  private final List<Diagnostic> diagnostics;

  private SignalBinding(Link[] links, List<Diagnostic> diagnostics) {
    this.links = links;
    this.diagnostics = List.copyOf(diagnostics);
  }

  /**
   * A signal and its variable.
   *
   * @param signal index of the signal
   * @param variable the variable, or the part of one, that it is
   * @param input whether the signal feeds the variable
   */
  record Link(int signal, Symbol variable, boolean input, VariableConversion conversion) {
    int address() {
      return variable.address();
    }
  }

  /**
   * Binds a program to a rule book.
   *
   * @param stated paths of variables by signal names, for signals whose variable has another name
   */
  public static SignalBinding bind(CheckedProgram program, RuleBook book, Map<String, String> stated) {
    return bind(program, book, stated, Set.of());
  }

  /**
   * Binds a program to a rule book.
   *
   * @param stated paths of variables by signal names, for signals whose variable has another name
   * @param recorded names of signals that are taken from the trace, whatever the program has
   */
  public static SignalBinding bind(CheckedProgram program, RuleBook book, Map<String, String> stated,
      Set<String> recorded) {
    List<Diagnostic> diagnostics = new ArrayList<>();
    Link[] links = new Link[book.signals().size()];
    Set<Integer> bound = new HashSet<>();
    Set<String> located = new HashSet<>();
    List<Lonely> unknown = new ArrayList<>();
    for (Signal signal : book.signals()) {
      if (recorded.contains(signal.name())) {
        continue;
      }
      String path = stated.getOrDefault(signal.name(), signal.name());
      Optional<Symbol> symbol = program.symbol(path);
      if (symbol.isEmpty()) {
        missing(program, signal, path, stated.containsKey(signal.name()), unknown, diagnostics);
        continue;
      }
      Optional<VariableConversion> conversion = VariableConversion.between(signal.type(), symbol.get().type());
      if (conversion.isEmpty()) {
        diagnostics.add(Diagnostic.error(signal.position(), "the signal " + signal.name() + " cannot be the variable "
            + symbol.get().path() + " of type " + symbol.get().type().name(), VariableConversion.hint(signal.type())));
        continue;
      }
      boolean input = isInput(symbol.get());
      if (!input && signal.direction() == Signal.Direction.INPUT) {
        diagnostics.add(Diagnostic.error(signal.position(), "the signal " + signal.name()
            + " is an input, but the program's " + symbol.get().path() + " is none",
            "declare the variable in VAR_INPUT or at an address %I"));
        continue;
      }
      links[signal.index()] = new Link(signal.index(), symbol.get(), input, conversion.get());
      located.add(symbol.get().located());
      bound.add(symbol.get().address());
    }
    bound.addAll(connected(program));
    diagnostics.addAll(warnings(unknown,
        each -> Diagnostic.warning(each.position(), "the program has no variable " + each.name()
            + "; the signal is taken from the trace", ""),
        all -> Diagnostic.warning(all.position(), "the program has no variables " + all.name()
            + "; these signals are taken from the trace", "")));
    diagnostics.addAll(warnings(unfed(program, bound, located),
        each -> Diagnostic.warning(each.position(), "no signal feeds the input " + each.name()
            + "; it keeps its first value", ""),
        all -> Diagnostic.warning(all.position(), "no signal feeds the inputs " + all.name()
            + "; each keeps its first value", "")));
    return new SignalBinding(links, diagnostics);
  }

  private static boolean isInput(Symbol symbol) {
    return symbol.located().startsWith("%I") || symbol.role() == Variable.Role.INPUT && symbol.path()
        .indexOf('.') == symbol.path().lastIndexOf('.');
  }

  /** A signal without a variable, or an input without a signal. */
  private record Lonely(String name, Position position) {}

  /** One warning of each of a few, or one of all, with their names in a row, at the place of the first. */
  private static List<Diagnostic> warnings(List<Lonely> all, Function<Lonely, Diagnostic> one,
      Function<Lonely, Diagnostic> many) {
    return all.size() <= FEW ? all.stream().map(one).toList() : List.of(many.apply(new Lonely(
        String.join(", ", all.stream().map(Lonely::name).toList()), all.get(0).position())));
  }

  private static void missing(CheckedProgram program, Signal signal, String path, boolean stated,
      List<Lonely> unknown, List<Diagnostic> diagnostics) {
    List<String> names = program.symbols().values().stream().map(Symbol::path).map(SignalBinding::bare).toList();
    String hint = NearName.hint(path, names).orElse("");
    if (stated) {
      diagnostics.add(Diagnostic.error(signal.position(), "the program has no variable " + path + " for the signal "
          + signal.name(), hint));
    } else if (signal.direction() != Signal.Direction.INPUT) {
      diagnostics.add(Diagnostic.error(signal.position(), "the program has no variable " + signal.name()
          + " to give this signal", hint));
    } else if (hint.isEmpty()) {
      unknown.add(new Lonely(signal.name(), signal.position()));
    } else {
      diagnostics.add(Diagnostic.warning(signal.position(), "the program has no variable " + signal.name()
          + "; the signal is taken from the trace", hint));
    }
  }

  private static String bare(String path) {
    return path.substring(path.indexOf('.') + 1);
  }

  /** Slots of inputs that a configuration connects. */
  private static Set<Integer> connected(CheckedProgram program) {
    Set<Integer> slots = new HashSet<>();
    program.programs().stream().flatMap(unit -> unit.body().stream()).filter(Step.Evaluate.class::isInstance)
        .map(step -> ((Step.Evaluate) step).call())
        .filter(call -> program.units().get(call.function()).kind() == Unit.Kind.PROGRAM)
        .forEach(call -> call.inputs().forEach(input -> slots.add(input.parameter().offset())));
    return slots;
  }

  private static List<Lonely> unfed(CheckedProgram program, Set<Integer> bound, Set<String> located) {
    Stream<Variable> inputs = program.programs().stream().flatMap(unit -> unit.variables().stream()
        .filter(variable -> variable.role() == Variable.Role.INPUT || variable.atInput()));
    return Stream.concat(inputs, program.globals().stream().filter(Variable::atInput))
        .filter(variable -> variable.type().scalar() && !bound.contains(variable.offset())
            && (variable.address().isEmpty() || !located.contains(variable.address())))
        .map(variable -> new Lonely(variable.name(), variable.position())).distinct().toList();
  }

  /** What does not fit (errors), and what is fed or taken by nothing (warnings). */
  public List<Diagnostic> diagnostics() {
    return diagnostics;
  }

  public boolean isSound() {
    return diagnostics.stream().noneMatch(Diagnostic::isError);
  }

  /** The same of another translation of the same program, in which the same variables may lie elsewhere. */
  public SignalBinding in(CheckedProgram program) {
    return new SignalBinding(Arrays.stream(links).map(link -> link == null ? null : new Link(link.signal(),
        program.symbol(link.variable().path()).orElseThrow(), link.input(), link.conversion())).toArray(Link[]::new),
        diagnostics);
  }

  /** The path of the variable that a signal is; empty where it is none. */
  public Optional<String> variable(int signal) {
    return Optional.ofNullable(links[signal]).map(link -> link.variable().path());
  }

  /** Slots whose last writing line is wanted as evidence. */
  public BitSet recorded() {
    BitSet slots = new BitSet();
    for (Link link : links) {
      if (link != null && !link.input()) {
        slots.set(link.address());
      }
    }
    return slots;
  }

  /** Whether the program reads or gives a signal. */
  public boolean binds(int signal) {
    return links[signal] != null;
  }

  /** Whether the program gives a signal. */
  public boolean gives(int signal) {
    return links[signal] != null && !links[signal].input();
  }

  /** By signal index, the tasks of the program that may write a signal that it gives; none of any other. */
  public Map<Integer, List<Task>> writers(CheckedProgram program) {
    TaskAccess access = new TaskAccess(program);
    Map<Integer, List<Task>> writers = new HashMap<>();
    outputs().forEach(link -> writers.put(link.signal(), Arrays.stream(access.writers(link.address()))
        .mapToObj(program.tasks()::get).toList()));
    return writers;
  }

  /** The link of a signal, or null where it has none. */
  Link link(int signal) {
    return links[signal];
  }

  /** The signals that the program feeds. */
  List<Link> outputs() {
    return Arrays.stream(links).filter(link -> link != null && !link.input()).toList();
  }

  /** The signals that feed the program. */
  List<Link> inputs() {
    return Arrays.stream(links).filter(link -> link != null && link.input()).toList();
  }
}
