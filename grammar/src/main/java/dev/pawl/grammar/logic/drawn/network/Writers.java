package dev.pawl.grammar.logic.drawn.network;

import dev.pawl.grammar.logic.drawn.Legend;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Statement;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Position;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * What writes which variable of a unit, in the order of evaluation. Where something writes a variable in every scan,
 * whatever else writes it there is lost, which is hardly meant.
 */
public final class Writers {

  private final String unit;
  private final Map<String, List<Writer>> writers = new LinkedHashMap<>();

  /** How something writes. */
  public enum Manner {
    /** In every scan: a coil, an output, an action of a chart. */
    ALWAYS,
    /** With power only, such as a coil that sets. */
    SOMETIMES,
    /** As the text says. */
    TEXT
  }

  /**
   * @param place what is evaluated as one; of two in a body with jumps perhaps only one is evaluated in a scan
   */
  private record Writer(String spelled, Manner manner, Optional<Object> place, Position position) {
    boolean excludes(Writer other) {
      return place.isPresent() && other.place().isPresent() && !place.equals(other.place());
    }
  }

  public Writers(String unit) {
    this.unit = unit;
  }

  /**
   * Notes what writes a variable.
   *
   * @param place the network, in a body with jumps
   */
  public void note(Expression target, Manner manner, Optional<Object> place, Position position) {
    String path = path(target);
    if (!path.isEmpty()) {
      writers.computeIfAbsent(path.toUpperCase(Locale.ROOT), unused -> new ArrayList<>())
          .add(new Writer(path, manner, place, position));
    }
  }

  /** Notes what text writes. */
  public void note(List<Statement> text) {
    text.forEach(statement -> statement.accept(new Written()));
  }

  /** Warns of each variable of which something written is lost. */
  public void warn(Legend legend, Consumer<Diagnostic> diagnostics) {
    writers.values().forEach(all -> {
      for (int i = all.size() - 1; i > 0; i--) {
        Writer last = all.get(i);
        Optional<Writer> other = all.subList(0, i).stream().filter(each -> isLost(each, last)).findFirst();
        if (other.isPresent()) {
          String by = legend.at(other.get().position()).orElse("the text of " + unit);
          diagnostics.accept(Diagnostic.warning(last.position(),
              last.spelled() + " is written by " + by + " too, and what comes last in the scan counts",
              "join both by OR before one coil, or let both set and reset"));
          return;
        }
      }
    });
  }

  private static boolean isLost(Writer earlier, Writer later) {
    boolean always = earlier.manner() == Manner.ALWAYS || later.manner() == Manner.ALWAYS;
    return always && !earlier.excludes(later);
  }

  /** A variable or a fixed part of one as it is spelled; empty for anything else. */
  private static String path(Expression target) {
    return target.accept(new Expression.Question<String>() {
      @Override public String otherwise(Expression e) { return ""; }
      @Override public String visit(Expression.NameReference e) { return e.name().text(); }
      @Override public String visit(Expression.DirectReference e) { return e.address().text(); }
      @Override public String visit(Expression.Required e) { return path(e.operand()); }

      @Override
      public String visit(Expression.Member e) {
        return part(e.owner(), "." + e.name().text());
      }

      @Override
      public String visit(Expression.Part e) {
        return part(e.owner(), (e.width() == 1 ? "." : "." + e.width() + " bits, number ") + e.index());
      }

      @Override
      public String visit(Expression.Indexed e) {
        return e.indices().stream().allMatch(Expression.IntegerLiteral.class::isInstance)
            ? part(e.owner(), e.indices().stream().map(index -> ((Expression.IntegerLiteral) index).value()).toList()
            .toString()) : "";
      }
    });
  }

  private static String part(Expression owner, String part) {
    return path(owner).isEmpty() ? "" : path(owner) + part;
  }

  /** What statements write. */
  private final class Written implements Statement.Visitor<Void> {

    private Void all(List<Statement> statements) {
      statements.forEach(statement -> statement.accept(this));
      return null;
    }

    @Override
    public Void visit(Statement.Assignment e) {
      note(e.target(), Manner.TEXT, Optional.empty(), e.position());
      return null;
    }

    @Override
    public Void visit(Statement.Invocation e) {
      e.call().arguments().stream().map(argument -> argument instanceof Expression.Output output
          ? output.target().orElse(null) : null).filter(Objects::nonNull).forEach(target ->
              note(target, Manner.TEXT, Optional.empty(), e.position()));
      return null;
    }

    @Override
    public Void visit(Statement.If e) {
      e.branches().forEach(branch -> all(branch.body()));
      return all(e.otherwise());
    }

    @Override
    public Void visit(Statement.Case e) {
      e.choices().forEach(choice -> all(choice.body()));
      return all(e.otherwise().orElse(List.of()));
    }

    @Override public Void visit(Statement.For e) { return all(e.body()); }
    @Override public Void visit(Statement.While e) { return all(e.body()); }
    @Override public Void visit(Statement.Repeat e) { return all(e.body()); }
    @Override public Void visit(Statement.Exit e) { return null; }
    @Override public Void visit(Statement.Continue e) { return null; }
    @Override public Void visit(Statement.Return e) { return null; }
    @Override public Void visit(Statement.Wire e) { return null; }
    @Override public Void visit(Statement.ChartStep e) { return null; }
    @Override public Void visit(Statement.ChartTransition e) { return null; }
  }
}
