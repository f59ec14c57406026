package dev.pawl.grammar.rules.explain;

import dev.pawl.grammar.rules.advice.StaticTruth;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.Expr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.Optional;

/**
 * Rules as formulas of metric temporal logic over dense time. Future: □ always, ◇ at some time, U until, W weak until.
 * Past: ■ always, ◆ at some time, S since. ↑p stands for the instants at which p becomes true.
 */
final class FormulaWriter implements Expr.Visitor<String> {

  private final RuleBook book;

  FormulaWriter(RuleBook book) {
    this.book = book;
  }

  String write(Rule.Duty duty) {
    return duty.match(this::when, this::always);
  }

  private String when(Rule.When when) {
    String trigger = event(when.trigger()) + when.whilst().map(q -> " ∧ " + tight(q)).orElse("");
    String demand = when.demand().accept(new DemandFormula(when.unless()));
    return "□ (" + trigger + " → " + cancelled(demand, when) + ")";
  }

  private String always(Rule.Always always) {
    boolean scoped = always.whilst().isPresent() || always.unless().isPresent();
    if (!scoped) {
      return "□ (" + write(always.required()) + ")";
    }
    String scope = always.whilst().map(this::tight).orElse("")
        + (always.whilst().isPresent() && always.unless().isPresent() ? " ∧ " : "")
        + always.unless().map(c -> "¬" + tight(c)).orElse("");
    return "□ (" + scope + " → " + tight(always.required()) + ")";
  }

  /** A stay cannot say inside the formula that the whole obligation is dropped, so that is written behind it. */
  private String cancelled(String demand, Rule.When when) {
    return when.demand().stay().isEmpty() || when.unless().isEmpty() ? demand : demand + " unless first "
        + tight(when.unless().get());
  }

  /** What is demanded, or the way out. */
  private final class DemandFormula implements Demand.Visitor<String> {

    private final Optional<BoolExpr> unless;

    DemandFormula(Optional<BoolExpr> unless) {
      this.unless = unless;
    }

    @Override
    public String visit(Demand.AtOnce e) {
      return e.stay().map(stay -> "(" + stay(e.required(), stay) + ")").orElseGet(() -> either(e.required()));
    }

    @Override
    public String visit(Demand.Within e) {
      String window = interval(e.after(), e.within());
      return e.stay().map(stay -> firstThenStays(e, stay))
          .orElseGet(() -> unless.isPresent() && e.after() > 0
              ? "(◇" + window + " " + tight(e.required()) + " ∨ ◇" + interval(0, e.after() + e.within()) + " "
                  + tight(unless.get()) + ")"
              : "◇" + window + " " + either(e.required()));
    }

    @Override
    public String visit(Demand.Throughout e) {
      String window = interval(e.after(), e.duration());
      return unless.isEmpty() ? "□" + window + " " + tight(e.required())
          : "(" + tight(e.required()) + " W" + window + " " + tight(unless.get()) + ")";
    }

    @Override
    public String visit(Demand.Before e) {
      return "(¬" + tight(e.limit()) + " W " + either(e.required()) + ")";
    }

    private String either(BoolExpr required) {
      return unless.map(c -> "(" + tight(required) + " ∨ " + tight(c) + ")").orElseGet(() -> tight(required));
    }
  }

  /** The first time at which the condition is true is the one that counts, so it is false until then. */
  private String firstThenStays(Demand.Within within, Demand.Stay stay) {
    BoolExpr required = within.required();
    String not = required instanceof BoolExpr.Not negation ? tight(negation.operand()) : "¬" + tight(required);
    String later = within.after() > 0 ? "◇" + interval(within.after(), 0) + " " : "";
    return later + "(" + not + " U" + interval(0, within.within()) + " (" + stay(required, stay) + "))";
  }

  private String stay(BoolExpr required, Demand.Stay stay) {
    String condition = tight(required);
    return stay.match(stayFor -> "□" + interval(0, stayFor.duration()) + " " + condition,
        until -> condition + " ∧ (" + condition + " W " + tight(until.release()) + ")");
  }

  private static String interval(long from, long length) {
    return "[" + (from == 0 ? "0" : Quantities.duration(from)) + ", " + Quantities.duration(from + length) + "]";
  }

  private String event(BoolExpr condition) {
    return StaticTruth.isMomentary(condition) ? tight(condition) : "↑" + tight(condition);
  }

  /** A condition that can stand beside any sign. */
  private String tight(BoolExpr condition) {
    return condition.accept(JOINED) ? "(" + write(condition) + ")" : write(condition);
  }

  /** Whether a sign stands between its parts. */
  private static final BoolExpr.Question<Boolean> JOINED = new BoolExpr.Question<>() {
    @Override public Boolean otherwise(BoolExpr e) { return false; }
    @Override public Boolean visit(BoolExpr.And e) { return true; }
    @Override public Boolean visit(BoolExpr.Or e) { return true; }
    @Override public Boolean visit(BoolExpr.Same e) { return true; }
    @Override public Boolean visit(BoolExpr.Compare e) { return true; }
    @Override public Boolean visit(BoolExpr.EnumEquals e) { return true; }
    @Override public Boolean visit(BoolExpr.Since e) { return true; }
  };

  private String write(Expr expression) {
    return expression.accept(this);
  }

  @Override public String visit(BoolExpr.Constant e) { return e.value() ? "⊤" : "⊥"; }
  @Override public String visit(BoolExpr.Signal e) { return signal(e.signal()); }
  @Override public String visit(BoolExpr.Not e) { return "¬" + tight(e.operand()); }

  @Override
  public String visit(BoolExpr.And e) {
    return inside(e.left(), BoolExpr.And.class) + " ∧ " + inside(e.right(), BoolExpr.And.class);
  }

  @Override
  public String visit(BoolExpr.Or e) {
    return inside(e.left(), BoolExpr.Or.class) + " ∨ " + inside(e.right(), BoolExpr.Or.class);
  }

  @Override public String visit(BoolExpr.Same e) { return tight(e.left()) + " ↔ " + tight(e.right()); }

  @Override
  public String visit(BoolExpr.Compare e) {
    return beside(e.left(), e.right(), e.dimension()) + " " + e.comparison().symbol() + " "
        + beside(e.right(), e.left(), e.dimension());
  }

  @Override public String visit(BoolExpr.EnumEquals e) {
    return member(e.left(), e.right()) + " = " + member(e.right(), e.left());
  }
  @Override public String visit(BoolExpr.HeldFor e) { return past("■", e.duration()) + tight(e.operand()); }
  @Override public String visit(BoolExpr.InLast e) { return past("◆", e.duration()) + tight(e.operand()); }
  @Override public String visit(BoolExpr.Since e) { return tight(e.operand()) + " S " + tight(e.anchor()); }
  @Override public String visit(BoolExpr.Rises e) { return "↑" + tight(e.operand()); }
  @Override public String visit(BoolExpr.Falls e) { return "↑¬" + tight(e.operand()); }
  @Override public String visit(BoolExpr.BoolChanges e) { return "changes(" + write(e.operand()) + ")"; }
  @Override public String visit(BoolExpr.NumChanges e) { return "changes(" + write(e.operand()) + ")"; }
  @Override public String visit(BoolExpr.EnumChanges e) { return "changes(" + write(e.operand()) + ")"; }
  @Override public String visit(BoolExpr.Previous e) { return "previous(" + write(e.operand()) + ")"; }
  @Override public String visit(BoolExpr.TraceStart e) { return "start"; }
  @Override public String visit(BoolExpr.TraceEnd e) { return "end"; }
  @Override public String visit(BoolExpr.Occupied e) { return "occupied(" + zone(e.zone()) + ")"; }
  @Override public String visit(BoolExpr.Enters e) { return "enters(" + zone(e.zone()) + ")"; }
  @Override public String visit(BoolExpr.Leaves e) { return "leaves(" + zone(e.zone()) + ")"; }
  @Override public String visit(BoolExpr.BacksOut e) { return "backs_out(" + zone(e.zone()) + ")"; }
  @Override public String visit(BoolExpr.Miscounts e) { return "miscounts(" + zone(e.zone()) + ")"; }

  @Override public String visit(NumExpr.Constant e) { return Quantities.number(e.value()); }
  @Override public String visit(NumExpr.Signal e) { return signal(e.signal()); }
  @Override public String visit(NumExpr.Negate e) { return "-" + write(e.operand()); }

  @Override
  public String visit(NumExpr.Arithmetic e) {
    return "(" + write(e.left()) + " " + e.operator().symbol() + " " + write(e.right()) + ")";
  }

  @Override public String visit(NumExpr.CountInLast e) { return window("#", e.duration()) + event(e.event()); }
  @Override public String visit(NumExpr.CountSince e) {
    return "#[last " + event(e.anchor()) + ", 0] " + event(e.event());
  }
  @Override public String visit(NumExpr.TimeSince e) { return "age(" + event(e.event()) + ")"; }
  @Override public String visit(NumExpr.Extreme e) {
    return window(e.greatest() ? "max" : "min", e.duration()) + write(e.operand());
  }
  @Override public String visit(NumExpr.Mean e) { return window("mean", e.duration()) + write(e.operand()); }
  @Override public String visit(NumExpr.Rate e) { return "rate(" + write(e.operand()) + ")"; }
  @Override public String visit(NumExpr.Previous e) { return "previous(" + write(e.operand()) + ")"; }

  @Override
  public String visit(NumExpr.PassingSpeed e) {
    return "speed(" + write(e.from()) + ", " + write(e.to()) + ", " + Quantities.number(e.distance()) + " m)";
  }

  @Override public String visit(NumExpr.Trains e) { return "trains(" + zone(e.zone()) + ")"; }

  @Override public String visit(EnumExpr.Literal e) { return "#" + e.index(); }
  @Override public String visit(EnumExpr.Signal e) { return signal(e.signal()); }
  @Override public String visit(EnumExpr.Previous e) { return "previous(" + write(e.operand()) + ")"; }

  private String inside(BoolExpr condition, Class<? extends BoolExpr> same) {
    return same.isInstance(condition) ? write(condition) : tight(condition);
  }

  private static String past(String sign, long duration) {
    return sign + "[0, " + Quantities.duration(duration) + "] ";
  }

  private static String window(String sign, long duration) {
    return sign + "[-" + Quantities.duration(duration) + ", 0] ";
  }

  private String beside(NumExpr number, NumExpr other, Dimension dimension) {
    return number instanceof NumExpr.Constant constant ? Quantities.beside(constant.value(), other, dimension, book)
        : write(number);
  }

  private String member(EnumExpr member, EnumExpr other) {
    return member instanceof EnumExpr.Literal literal ? Quantities.member(literal, other, book)
        .orElseGet(() -> write(member))
        : write(member);
  }

  private String signal(int signal) {
    return book.signals().get(signal).name();
  }

  private String zone(int zone) {
    return book.zones().get(zone).name();
  }
}
