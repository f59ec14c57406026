package dev.pawl.grammar.rules.format;

import dev.pawl.grammar.rules.print.DutyPrinter;
import dev.pawl.grammar.rules.print.ExpressionPrinter;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.ExampleStep;
import dev.pawl.grammar.rules.tree.ForEach;
import dev.pawl.grammar.rules.tree.Name;
import dev.pawl.grammar.rules.tree.Outcome;
import dev.pawl.grammar.rules.tree.RequirementClause;
import dev.pawl.grammar.rules.tree.RuleClause;
import dev.pawl.grammar.rules.tree.TypeName;
import dev.pawl.grammar.rules.tree.ZoneClause;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Lays out declarations in rows. */
final class RowBuilder implements Declaration.Visitor<Void> {

  /** Longest line of code that is not broken. */
  static final int WIDTH = 118;

  private static final int KEYWORD = 8;

  private final ExpressionPrinter expressions = new ExpressionPrinter();
  private final DutyPrinter duties = new DutyPrinter(expressions);
  private final List<Row> rows = new ArrayList<>();

  List<Row> rows() {
    return rows;
  }

  void add(Declaration declaration) {
    declaration.accept(this);
  }

  @Override
  public Void visit(Declaration.Language e) {
    row(e.position(), "language", "language " + e.version());
    return null;
  }

  @Override
  public Void visit(Declaration.Ride e) {
    row(e.position(), "ride", "ride " + quoted(e.title()));
    return null;
  }

  @Override
  public Void visit(Declaration.Resolution e) {
    row(e.position(), "resolution", "resolution " + expressions.quantity(e.duration()));
    return null;
  }

  @Override
  public Void visit(Declaration.Use e) {
    row(e.position(), "use", "use " + quoted(e.file()));
    return null;
  }

  @Override
  public Void visit(Declaration.Constant e) {
    row(e.position(), "constant", "constant " + e.name().text(), "= " + expressions.print(e.value()));
    return null;
  }

  @Override
  public Void visit(Declaration.Define e) {
    define(e);
    return null;
  }

  @Override
  public Void visit(Declaration.EnumType e) {
    row(e.position(), "type", "type " + e.name().text(), "= " + type(e.members()));
    return null;
  }

  @Override
  public Void visit(Declaration.Signals e) {
    row(e.position(), "signal", e.direction().name().toLowerCase(Locale.ROOT), names(e.names()), ": " + type(e.type()));
    return null;
  }

  @Override
  public Void visit(Declaration.Needs e) {
    needs(e);
    return null;
  }

  @Override
  public Void visit(Declaration.Group e) {
    group(e);
    return null;
  }

  @Override
  public Void visit(Declaration.Zone e) {
    zone(e);
    return null;
  }

  @Override
  public Void visit(Declaration.Rule e) {
    rule(e);
    return null;
  }

  @Override
  public Void visit(Declaration.Requirement e) {
    requirement(e);
    return null;
  }

  @Override
  public Void visit(Declaration.Example e) {
    example(e);
    return null;
  }

  private Row row(Position position, String block, String... cells) {
    return row(position, 0, block, List.of(cells), List.of());
  }

  private Row row(Position position, int indent, String block, List<String> cells, List<String> continuation) {
    Row row = new Row(position, indent, block, cells, continuation);
    rows.add(row);
    return row;
  }

  private static String quoted(Name text) {
    return "\"" + text.text() + "\"";
  }

  private static String names(List<Name> names) {
    return names.stream().map(Name::text).collect(Collectors.joining(", "));
  }

  private static String type(TypeName type) {
    return type.match(bool -> "bool", number -> "number", choice -> "one of (" + names(choice.members()) + ")",
        TypeName.Named::text);
  }

  private void define(Declaration.Define define) {
    String parameters = define.parameters().isEmpty() ? "" : define.parameters().stream()
        .map(p -> p.name().text() + ": " + p.type().map(RowBuilder::type).orElse("zone"))
        .collect(Collectors.joining(", ", "(", ")"));
    String head = "define " + define.name().text() + parameters;
    List<String> lines = expressions.lines(define.body(), WIDTH - head.length() - 3);
    if (lines.size() == 1) {
      row(define.position(), "define", head, "= " + lines.get(0));
    } else {
      row(define.position(), 0, "", List.of(head + " ="), indented(4, lines));
    }
  }

  private static List<String> indented(int columns, List<String> lines) {
    return lines.stream().map(line -> " ".repeat(columns) + line).toList();
  }

  private void needs(Declaration.Needs needs) {
    switch (needs.kind()) {
      case VALUE -> row(needs.position(), "needs", "needs " + names(needs.names()),
          ": " + type(needs.type().orElseThrow()));
      case ZONE -> row(needs.position(), "needs zone", "needs zone " + names(needs.names()));
      case GROUP -> row(needs.position(), "needs group", "needs group " + names(needs.names()));
    }
  }

  private void group(Declaration.Group group) {
    String head = "group " + group.name().text() + " = (";
    String line = head + group.tuples().stream().map(RowBuilder::tuple).collect(Collectors.joining(", ")) + ")";
    if (line.length() <= WIDTH) {
      row(group.position(), "group", line);
      return;
    }
    row(group.position(), "", head);
    String block = "group " + group.name().text();
    for (int i = 0; i < group.tuples().size(); i++) {
      ForEach.Tuple tuple = group.tuples().get(i);
      boolean last = i == group.tuples().size() - 1;
      row(tuple.position(), 2, block, tupleCells(tuple, last ? ")" : ","), List.of());
    }
  }

  private static String tuple(ForEach.Tuple tuple) {
    return tuple.names().size() == 1 ? tuple.names().get(0).text() : "(" + names(tuple.names()) + ")";
  }

  private static List<String> tupleCells(ForEach.Tuple tuple, String end) {
    List<String> cells = new ArrayList<>();
    int size = tuple.names().size();
    for (int i = 0; i < size; i++) {
      boolean single = size == 1;
      String open = i == 0 && !single ? "(" : "";
      String close = i < size - 1 ? "," : (single ? "" : ")") + end;
      cells.add(open + tuple.names().get(i).text() + close);
    }
    return cells;
  }

  private void zone(Declaration.Zone zone) {
    List<String> clauses = zone.clauses().stream().map(this::clause).toList();
    String head = "zone " + zone.name().text();
    boolean oneLine = (head + " " + String.join(" ", clauses)).length() <= WIDTH;
    if (oneLine) {
      List<String> cells = new ArrayList<>(List.of(head));
      cells.addAll(clauses);
      row(zone.position(), "zone", cells.toArray(String[]::new));
      return;
    }
    row(zone.position(), "", head);
    for (int i = 0; i < clauses.size(); i++) {
      row(zone.clauses().get(i).position(), 2, "", List.of(clauses.get(i)), List.of());
    }
  }

  private String clause(ZoneClause clause) {
    return clause.word() + " " + clause.<String>match(
        boundary -> expressions.print(boundary.first())
            + boundary.second().map(second -> " then " + expressions.print(second)).orElse(""),
        length -> expressions.quantity(length.length()), ZoneClause.Holds::trains, ZoneClause.StartsWith::trains);
  }

  private void rule(Declaration.Rule rule) {
    String head = "rule " + rule.id().text() + " " + quoted(rule.title());
    rule.forEach().ifPresent(forEach -> row(forEach.position(), "", forEach(forEach)).apart(true));
    row(rule.id().position(), "", head).apart(rule.forEach().isEmpty());
    int room = WIDTH - 2 - KEYWORD - 1;
    List<DutyPrinter.Clause> duty = Stream.concat(duties.clauses(rule.duty(), room).stream(),
        duties.clauses(rule.proof(), room).stream()).toList();
    int keyword = Math.max(KEYWORD, rule.clauses().stream().mapToInt(clause -> clause.word().length()).max().orElse(0));
    String block = "rule " + rule.id().text();
    rule.clauses().forEach(clause -> row(clause.position(), 2, block,
        List.of(padded(clause.word(), keyword) + clause(clause)), List.of()));
    for (DutyPrinter.Clause clause : duty) {
      row(clause.position(), 2, block, List.of(padded(clause.word(), keyword) + clause.lines().get(0)),
          indented(2 + keyword + 1, clause.lines().subList(1, clause.lines().size())));
    }
  }

  private static String padded(String word, int width) {
    return word + " ".repeat(width - word.length() + 1);
  }

  private String clause(RuleClause clause) {
    return clause.match(
        basis -> ((basis.practice() ? "practice " : "") + basis.text().map(RowBuilder::quoted).orElse("")).strip(),
        severity -> severity.level().text(),
        tolerance -> expressions.quantity(tolerance.amount()),
        resolution -> expressions.quantity(resolution.duration()),
        satisfies -> names(satisfies.requirements()));
  }

  private void requirement(Declaration.Requirement requirement) {
    row(requirement.position(), "", "requirement " + requirement.id().text() + " " + quoted(requirement.text()))
        .apart(true);
    int keyword = requirement.clauses().stream().mapToInt(clause -> clause.word().length()).max().orElse(0);
    for (RequirementClause clause : requirement.clauses()) {
      String said = clause.match(worded -> quoted(worded.text()), by -> names(by.rules()));
      row(clause.position(), 2, "requirement " + requirement.id().text(),
          List.of(padded(clause.word(), keyword) + said), List.of());
    }
  }

  private static String forEach(ForEach forEach) {
    List<ForEach.Variable> variables = forEach.variables();
    boolean uniform = variables.stream().map(ForEach.Variable::zone).distinct().count() == 1;
    String names = variables.stream().map(v -> v.name().text()).collect(Collectors.joining(", "));
    String kind = variables.get(0).zone() ? "zone" : "signal";
    String binder = variables.size() == 1 ? kind + " " + names : uniform ? kind + "s (" + names + ")"
        : variables.stream().map(v -> (v.zone() ? "zone " : "signal ") + v.name().text())
        .collect(Collectors.joining(", ", "(", ")"));
    String cases = forEach.cases().match(everyZone -> "", listed -> " in ("
        + listed.tuples().stream().map(RowBuilder::tuple).collect(Collectors.joining(", ")) + ")",
        named -> " in " + named.group().text());
    return "for each " + binder + cases;
  }

  private void example(Declaration.Example example) {
    Outcome outcome = example.outcome();
    String margin = outcome.margin().map(m -> ", margin " + expressions.print(m)).orElse("");
    row(example.position(), "", "example " + quoted(example.title()) + " for " + example.rule().text() + " gives "
        + outcome.verdict() + margin).apart(true);
    String block = "example " + rows.size();
    for (ExampleStep step : example.steps()) {
      row(step.position(), 2, block, step(step), List.of());
    }
  }

  private List<String> step(ExampleStep step) {
    return step.match(at -> List.of("at " + expressions.print(at.time()), at.assignments().stream()
        .map(a -> a.signal().text() + " = " + expressions.print(a.value())).collect(Collectors.joining(", "))),
        end -> List.of("end at " + expressions.print(end.time())));
  }
}
