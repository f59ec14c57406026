package dev.pawl.grammar.rules.check;

import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.Expression;
import dev.pawl.grammar.rules.tree.Name;
import dev.pawl.grammar.rules.tree.RuleFile;
import dev.pawl.grammar.rules.tree.TypeName;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** Takes in the names of all files before any expression is looked at, so that they may be used in any order. */
final class DeclarationCollector {

  private static final int MOST_ZONES = 500;

  private final Context context;
  private final List<RuleFile> files;
  private final List<Signal> signals = new ArrayList<>();
  private final List<Declaration.Zone> zones = new ArrayList<>();

  DeclarationCollector(Context context, List<RuleFile> files) {
    this.context = context;
    this.files = files;
  }

  List<Signal> signals() {
    return signals;
  }

  List<Declaration.Zone> zones() {
    return zones;
  }

  /** All declarations of one kind, in the order of files and text. */
  <D extends Declaration> Stream<D> all(Class<D> kind) {
    return files.stream().flatMap(file -> file.declarations().stream()).filter(kind::isInstance).map(kind::cast);
  }

  void collect() {
    all(Declaration.EnumType.class).forEach(this::type);
    all(Declaration.Signals.class).forEach(this::signals);
    all(Declaration.Zone.class).forEach(this::zone);
    all(Declaration.Constant.class).forEach(c -> context.names.declare(c.name().text(), new Declared.ConstantEntry(c)));
    all(Declaration.Define.class).forEach(this::define);
    all(Declaration.Group.class).forEach(g -> context.names.declare(g.name().text(), new Declared.GroupEntry(g)));
    files.forEach(file -> file.unread().forEach(name -> context.names.declareMissing(name.text(), name.position())));
    all(Declaration.Needs.class).forEach(this::missing);
    all(Declaration.EnumType.class).forEach(type -> type.members().members().forEach(context.names::shadows));
    all(Declaration.Signals.class).forEach(signals -> {
      if (signals.type() instanceof TypeName.OneOf choice) {
        choice.members().forEach(context.names::shadows);
      }
    });
  }

  private void type(Declaration.EnumType type) {
    Name name = type.name();
    context.names.declare(name.text(), new Declared.TypeEntry(context.types.enumeration(name.text(), type.members()),
        name.position()));
  }

  private void signals(Declaration.Signals declaration) {
    Optional<ValueType> type = context.types.resolve(declaration.type());
    Signal.Direction direction = Signal.Direction.valueOf(declaration.direction().name());
    for (Name name : declaration.names()) {
      if (type.isEmpty()) {
        context.names.declareMissing(name.text(), name.position());
        continue;
      }
      Signal signal = new Signal(signals.size(), name.text(), direction, type.get(), name.position());
      if (context.names.declare(name.text(), new Declared.SignalEntry(signal))) {
        signals.add(signal);
      }
    }
  }

  private void zone(Declaration.Zone zone) {
    if (zones.size() == MOST_ZONES) {
      context.problems.error(zone.name().position(), "a rule book may have at most " + MOST_ZONES + " zones");
    } else if (context.names.declare(zone.name().text(), new Declared.ZoneEntry(zones.size(), zone))) {
      zones.add(zone);
    }
  }

  private void define(Declaration.Define define) {
    String name = define.name().text();
    if (!define.parameters().isEmpty() && Builtins.NAMES.contains(name)) {
      context.problems.error(define.name().position(), "`" + name + "` is a form of the language and cannot be defined",
          "choose another name");
      return;
    }
    context.names.declare(name, new Declared.DefineEntry(define));
  }

  /** A need that no file satisfies is told once, here; whatever uses it stays silent. */
  private void missing(Declaration.Needs needs) {
    for (Name name : needs.names()) {
      if (context.names.find(name.text()).isPresent()) {
        continue;
      }
      String what = switch (needs.kind()) {
        case VALUE -> "";
        case ZONE -> "the zone ";
        case GROUP -> "the group ";
      };
      String hint = switch (needs.kind()) {
        case VALUE -> "declare a signal of that name, or say what it stands for: define " + name.text() + " = ...";
        case ZONE -> "declare it beside the signals: zone " + name.text() + " enter ... leave ...";
        case GROUP -> "list its cases: group " + name.text() + " = ((a, b), (c, d))";
      };
      context.problems.error(name.position(), "this file needs " + what + "`" + name.text()
          + "`, which no file declares", hint);
      context.names.declareMissing(name.text(), name.position());
    }
  }

  /** Checks what satisfies a need against the type that is needed. */
  void checkNeeds() {
    all(Declaration.Needs.class).forEach(needs -> {
      Optional<ValueType> type = needs.type().flatMap(context.types::resolve);
      for (Name name : needs.names()) {
        if (needs.kind() == Declaration.NeedKind.GROUP) {
          group(name);
        } else if (needs.kind() == Declaration.NeedKind.ZONE || type.isPresent()) {
          need(name, type);
        }
      }
    });
  }

  private void group(Name name) {
    Declared entry = context.names.find(name.text()).orElseThrow();
    if (!(entry instanceof Declared.GroupEntry) && !(entry instanceof Declared.MissingEntry)) {
      context.problems.error(name.position(), "this file needs `" + name.text() + "` as a group, but it is "
          + entry.kind(), "it is declared at " + entry.position());
    }
  }

  private void need(Name name, Optional<ValueType> type) {
    Checked value = new ExpressionChecker(context)
        .check(new Expression.Reference(name.text(), name.position()));
    boolean fits = type.map(t -> Definitions.matches(value, t)).orElse(value instanceof Checked.Place);
    if (!fits && !value.isFailed()) {
      Position declared = context.names.find(name.text()).orElseThrow().position();
      context.problems.error(name.position(), "this file needs `" + name.text() + "` as "
          + type.map(TypeWords::of).orElse("a zone") + ", but it is " + TypeWords.of(value), "it is declared at "
              + declared);
    }
  }
}
