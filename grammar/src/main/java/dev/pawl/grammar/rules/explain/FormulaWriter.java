package dev.pawl.grammar.rules.explain;

import dev.pawl.grammar.rules.advice.StaticTruth;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Dimension;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.ValueType;
import java.util.Optional;

/**
 * Rules as formulas of metric temporal logic over dense time. Future: □ always, ◇ at some time, U until, W weak until. Past: ■
 * always, ◆ at some time, S since. ↑p stands for the instants at which p becomes true.
 */
final class FormulaWriter {

  private final RuleBook book;

  FormulaWriter(RuleBook book) {
    this.book = book;
  }

  String write(Rule.Duty duty) {
    if (duty instanceof Rule.When when) {
      String trigger = event(when.trigger()) + when.whilst().map(q -> " ∧ " + tight(q)).orElse("");
      return "□ (" + trigger + " → " + cancelled(demand(when.demand(), when.unless()), when) + ")";
    }
    Rule.Always always = (Rule.Always) duty;
    String required = write(always.required());
    boolean scoped = always.whilst().isPresent() || always.unless().isPresent();
    if (!scoped) {
      return "□ (" + required + ")";
    }
    String scope = always.whilst().map(this::tight).orElse("")
        + (always.whilst().isPresent() && always.unless().isPresent() ? " ∧ " : "")
        + always.unless().map(c -> "¬" + tight(c)).orElse("");
    return "□ (" + scope + " → " + tight(always.required()) + ")";
  }

  /** A stay cannot say inside the formula that the whole obligation is dropped, so that is written behind it. */
  private String cancelled(String demand, Rule.When when) {
    boolean inside = when.demand() instanceof Demand.AtOnce once && once.stay().isEmpty()
        || when.demand() instanceof Demand.Within within && within.stay().isEmpty()
        || when.demand() instanceof Demand.Throughout || when.demand() instanceof Demand.Before;
    return inside || when.unless().isEmpty() ? demand : demand + " unless first " + tight(when.unless().get());
  }

  private String demand(Demand demand, Optional<BoolExpr> unless) {
    if (demand instanceof Demand.AtOnce once) {
      return once.stay().map(stay -> "(" + stay(once.required(), stay) + ")").orElseGet(() -> either(once.required(), unless));
    }
    if (demand instanceof Demand.Within within) {
      String window = interval(within.after(), within.within());
      return within.stay().map(stay -> firstThenStays(within, stay))
          .orElseGet(() -> unless.isPresent() && within.after() > 0
              ? "(◇" + window + " " + tight(within.required()) + " ∨ ◇" + interval(0, within.after() + within.within()) + " "
                  + tight(unless.get()) + ")"
              : "◇" + window + " " + either(within.required(), unless));
    }
    if (demand instanceof Demand.Throughout throughout) {
      String window = interval(throughout.after(), throughout.duration());
      return unless.isEmpty() ? "□" + window + " " + tight(throughout.required())
          : "(" + tight(throughout.required()) + " W" + window + " " + tight(unless.get()) + ")";
    }
    Demand.Before before = (Demand.Before) demand;
    return "(¬" + tight(before.limit()) + " W " + either(before.required(), unless) + ")";
  }

  private String either(BoolExpr required, Optional<BoolExpr> unless) {
    return unless.map(c -> "(" + tight(required) + " ∨ " + tight(c) + ")").orElseGet(() -> tight(required));
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
    return stay instanceof Demand.StayFor stayFor
        ? "□" + interval(0, stayFor.duration()) + " " + condition
        : condition + " ∧ (" + condition + " W " + tight(((Demand.StayUntil) stay).release()) + ")";
  }

  private static String interval(long from, long length) {
    return "[" + (from == 0 ? "0" : Quantities.duration(from)) + ", " + Quantities.duration(from + length) + "]";
  }

  private String event(BoolExpr condition) {
    return StaticTruth.isMomentary(condition) ? tight(condition) : "↑" + tight(condition);
  }

  private String tight(BoolExpr condition) {
    boolean compound = condition instanceof BoolExpr.And || condition instanceof BoolExpr.Or
        || condition instanceof BoolExpr.Compare
        || condition instanceof BoolExpr.Since || condition instanceof BoolExpr.Same || condition instanceof BoolExpr.EnumEquals;
    return compound ? "(" + write(condition) + ")" : write(condition);
  }

  String write(BoolExpr condition) {
    if (condition instanceof BoolExpr.Constant constant) {
      return constant.value() ? "⊤" : "⊥";
    }
    if (condition instanceof BoolExpr.Signal signal) {
      return book.signals().get(signal.signal()).name();
    }
    if (condition instanceof BoolExpr.Not not) {
      return "¬" + tight(not.operand());
    }
    if (condition instanceof BoolExpr.And and) {
      return inside(and.left(), BoolExpr.And.class) + " ∧ " + inside(and.right(), BoolExpr.And.class);
    }
    if (condition instanceof BoolExpr.Or or) {
      return inside(or.left(), BoolExpr.Or.class) + " ∨ " + inside(or.right(), BoolExpr.Or.class);
    }
    if (condition instanceof BoolExpr.Same same) {
      return tight(same.left()) + " ↔ " + tight(same.right());
    }
    if (condition instanceof BoolExpr.Compare compare) {
      return beside(compare.left(), compare.right(), compare.dimension()) + " " + compare.comparison().symbol() + " "
          + beside(compare.right(), compare.left(), compare.dimension());
    }
    if (condition instanceof BoolExpr.EnumEquals equal) {
      return member(equal.left(), equal.right()) + " = " + member(equal.right(), equal.left());
    }
    if (condition instanceof BoolExpr.HeldFor held) {
      return "■[0, " + Quantities.duration(held.duration()) + "] " + tight(held.operand());
    }
    if (condition instanceof BoolExpr.InLast inLast) {
      return "◆[0, " + Quantities.duration(inLast.duration()) + "] " + tight(inLast.operand());
    }
    if (condition instanceof BoolExpr.Since since) {
      return tight(since.operand()) + " S " + tight(since.anchor());
    }
    return momentary(condition);
  }

  private String inside(BoolExpr condition, Class<? extends BoolExpr> same) {
    return same.isInstance(condition) ? write(condition) : tight(condition);
  }

  private String momentary(BoolExpr condition) {
    if (condition instanceof BoolExpr.Rises rises) {
      return "↑" + tight(rises.operand());
    }
    if (condition instanceof BoolExpr.Falls falls) {
      return "↑¬" + tight(falls.operand());
    }
    if (condition instanceof BoolExpr.BoolChanges changes) {
      return "changes(" + write(changes.operand()) + ")";
    }
    if (condition instanceof BoolExpr.NumChanges changes) {
      return "changes(" + write(changes.operand()) + ")";
    }
    if (condition instanceof BoolExpr.EnumChanges changes) {
      return "changes(" + member(changes.operand(), changes.operand()) + ")";
    }
    if (condition instanceof BoolExpr.Previous previous) {
      return "previous(" + write(previous.operand()) + ")";
    }
    if (condition instanceof BoolExpr.TraceStart) {
      return "start";
    }
    return condition instanceof BoolExpr.TraceEnd ? "end" : zone(condition);
  }

  private String zone(BoolExpr condition) {
    if (condition instanceof BoolExpr.Occupied occupied) {
      return "occupied(" + name(occupied.zone()) + ")";
    }
    if (condition instanceof BoolExpr.Enters enters) {
      return "enters(" + name(enters.zone()) + ")";
    }
    if (condition instanceof BoolExpr.Leaves leaves) {
      return "leaves(" + name(leaves.zone()) + ")";
    }
    if (condition instanceof BoolExpr.BacksOut backsOut) {
      return "backs_out(" + name(backsOut.zone()) + ")";
    }
    return "miscounts(" + name(((BoolExpr.Miscounts) condition).zone()) + ")";
  }

  private String beside(NumExpr number, NumExpr other, Dimension dimension) {
    return number instanceof NumExpr.Constant constant ? Quantities.beside(constant.value(), other, dimension, book)
        : write(number);
  }

  private String write(NumExpr number) {
    if (number instanceof NumExpr.Constant constant) {
      return Quantities.number(constant.value());
    }
    if (number instanceof NumExpr.Signal signal) {
      return book.signals().get(signal.signal()).name();
    }
    if (number instanceof NumExpr.Negate negate) {
      return "-" + write(negate.operand());
    }
    if (number instanceof NumExpr.Arithmetic arithmetic) {
      return "(" + write(arithmetic.left()) + " " + arithmetic.operator().symbol() + " " + write(arithmetic.right()) + ")";
    }
    if (number instanceof NumExpr.CountInLast count) {
      return "#[-" + Quantities.duration(count.duration()) + ", 0] " + event(count.event());
    }
    if (number instanceof NumExpr.CountSince count) {
      return "#[last " + event(count.anchor()) + ", 0] " + event(count.event());
    }
    return window(number);
  }

  private String window(NumExpr number) {
    if (number instanceof NumExpr.TimeSince since) {
      return "age(" + event(since.event()) + ")";
    }
    if (number instanceof NumExpr.Extreme extreme) {
      return (extreme.greatest() ? "max" : "min") + "[-" + Quantities.duration(extreme.duration()) + ", 0] "
          + write(extreme.operand());
    }
    if (number instanceof NumExpr.Mean mean) {
      return "mean[-" + Quantities.duration(mean.duration()) + ", 0] " + write(mean.operand());
    }
    if (number instanceof NumExpr.Rate rate) {
      return "rate(" + write(rate.operand()) + ")";
    }
    if (number instanceof NumExpr.Previous previous) {
      return "previous(" + write(previous.operand()) + ")";
    }
    if (number instanceof NumExpr.PassingSpeed speed) {
      return "speed(" + write(speed.from()) + ", " + write(speed.to()) + ", " + Quantities.number(speed.distance()) + " m)";
    }
    return "trains(" + name(((NumExpr.Trains) number).zone()) + ")";
  }

  private String member(EnumExpr member, EnumExpr other) {
    if (member instanceof EnumExpr.Literal literal) {
      return type(other).map(type -> type.names().get(literal.index())).orElse("#" + literal.index());
    }
    return member instanceof EnumExpr.Signal signal ? book.signals().get(signal.signal()).name()
        : "previous(" + member(((EnumExpr.Previous) member).operand(), other) + ")";
  }

  private Optional<ValueType.Enumeration> type(EnumExpr member) {
    if (member instanceof EnumExpr.Previous previous) {
      return type(previous.operand());
    }
    return member instanceof EnumExpr.Signal signal
        && book.signals().get(signal.signal()).type() instanceof ValueType.Enumeration type
        ? Optional.of(type) : Optional.empty();
  }

  private String name(int zone) {
    return book.zones().get(zone).name();
  }
}
