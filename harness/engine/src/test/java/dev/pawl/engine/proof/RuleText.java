package dev.pawl.engine.proof;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.reference.Trace;
import dev.pawl.engine.reference.TraceEvent;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.Expr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Proof;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.model.Zone;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** Rule books and traces written out to be read, close to the rule language; durations are in nanoseconds. */
final class RuleText implements Expr.Visitor<String> {
  private final List<Signal> signals;

  private RuleText(RuleBook book) {
    this.signals = book.signals();
  }

  static String of(RuleBook book, Trace trace) {
    RuleText text = new RuleText(book);
    StringBuilder out = new StringBuilder();
    book.zones().forEach(zone -> out.append(text.zone(zone)).append('\n'));
    book.rules().forEach(rule -> out.append(text.rule(rule)).append('\n'));
    book.signals().stream().filter(signal -> trace.sampling().period(signal.index()) > 0)
        .forEach(signal -> out.append("  ").append(signal.name()).append(" looked at every ")
            .append(trace.sampling().period(signal.index())).append('\n'));
    for (TraceEvent event : trace.events()) {
      out.append("  ").append(event.time()).append(' ').append(text.name(event.signal())).append(" = ")
          .append(text.value(event)).append('\n');
    }
    return out.append("  end ").append(trace.end()).append(trace.statedEnd().isPresent() ? " (stated)" : "").toString();
  }

  private String name(int signal) {
    return signals.get(signal).name();
  }

  private String value(TraceEvent event) {
    if (event.value() == EventSink.UNKNOWN) {
      return "unknown";
    }
    return signals.get(event.signal()).type() instanceof ValueType.Quantity
        ? Double.toString(Double.longBitsToDouble(event.value())) : Long.toString(event.value());
  }

  private String zone(Zone zone) {
    String starts = zone.startsWith().isPresent() ? " starts with " + zone.startsWith().getAsInt() : "";
    return "zone " + zone.name() + " enter " + boundary(zone.entry(), true) + " leave " + boundary(zone.exit(), false)
        + " holds " + zone.holds() + starts;
  }

  private String boundary(Zone.Boundary boundary, boolean entry) {
    if (boundary instanceof Zone.Edge edge) {
      return of(edge.event());
    }
    Zone.Pair pair = (Zone.Pair) boundary;
    return entry ? of(pair.outer()) + " then " + of(pair.inner()) : of(pair.inner()) + " then " + of(pair.outer());
  }

  private String rule(Rule rule) {
    String head = rule.id() + (rule.resolution() > 0 ? " resolution " + rule.resolution() : "") + ": ";
    String scope = part(" while ", rule.duty().whilst()) + part(" unless ", rule.duty().unless());
    if (rule.duty() instanceof Rule.When when) {
      return head + "when " + of(when.trigger()) + scope + " must " + demand(when.demand()) + trials(rule.proof());
    }
    return head + "always " + of(((Rule.Always) rule.duty()).required()) + scope + trials(rule.proof());
  }

  private String trials(Proof proof) {
    return proof.trials().stream().map(trial -> trial.match(byTrigger -> " tried by trigger",
        byEvent -> (byEvent.ofStay() ? " stay" : "") + " tried by " + of(byEvent.event())
            + part(" given ", byEvent.given())))
        .collect(Collectors.joining());
  }

  private String part(String word, Optional<BoolExpr> condition) {
    return condition.map(present -> word + of(present)).orElse("");
  }

  private String demand(Demand demand) {
    if (demand instanceof Demand.AtOnce atOnce) {
      return of(atOnce.required()) + stay(atOnce.stay());
    }
    if (demand instanceof Demand.Within within) {
      return of(within.required()) + after(within.after()) + " within " + within.within() + stay(within.stay());
    }
    if (demand instanceof Demand.Throughout throughout) {
      return of(throughout.required()) + after(throughout.after()) + " throughout " + throughout.duration();
    }
    Demand.Before before = (Demand.Before) demand;
    return of(before.required()) + " before " + of(before.limit());
  }

  private String after(long after) {
    return after == 0 ? "" : " after " + after;
  }

  private String stay(Optional<Demand.Stay> stay) {
    return stay.map(present -> present instanceof Demand.StayFor stayFor ? ", and stay so for " + stayFor.duration()
        : ", and stay so until " + of(((Demand.StayUntil) present).release())).orElse("");
  }

  private String of(Expr e) {
    return e.accept(this);
  }

  @Override public String visit(BoolExpr.Constant constant) { return Boolean.toString(constant.value()); }
  @Override public String visit(BoolExpr.Signal signal) { return name(signal.signal()); }
  @Override public String visit(BoolExpr.Not not) { return "not " + of(not.operand()); }
  @Override public String visit(BoolExpr.And and) { return "(" + of(and.left()) + " and " + of(and.right()) + ")"; }
  @Override public String visit(BoolExpr.Or or) { return "(" + of(or.left()) + " or " + of(or.right()) + ")"; }
  @Override public String visit(BoolExpr.Same same) { return "(" + of(same.left()) + " = " + of(same.right()) + ")"; }

  @Override
  public String visit(BoolExpr.Compare compare) {
    String tolerance = compare.tolerance() == 0 ? "" : " tolerance " + compare.tolerance();
    return "(" + of(compare.left()) + " " + compare.comparison().symbol() + " " + of(compare.right()) + tolerance + ")";
  }

  @Override
  public String visit(BoolExpr.EnumEquals equals) {
    return "(" + of(equals.left()) + " = " + of(equals.right()) + ")";
  }

  @Override public String visit(BoolExpr.Rises rises) { return "rises(" + of(rises.operand()) + ")"; }
  @Override public String visit(BoolExpr.Falls falls) { return "falls(" + of(falls.operand()) + ")"; }
  @Override public String visit(BoolExpr.BoolChanges changes) { return "changes(" + of(changes.operand()) + ")"; }
  @Override public String visit(BoolExpr.NumChanges changes) { return "changes(" + of(changes.operand()) + ")"; }
  @Override public String visit(BoolExpr.EnumChanges changes) { return "changes(" + of(changes.operand()) + ")"; }

  @Override
  public String visit(BoolExpr.HeldFor held) {
    return "(" + of(held.operand()) + " for " + held.duration() + ")";
  }

  @Override
  public String visit(BoolExpr.InLast inLast) {
    return "(" + of(inLast.operand()) + " in last " + inLast.duration() + ")";
  }

  @Override
  public String visit(BoolExpr.Since since) {
    return "(" + of(since.operand()) + " since " + of(since.anchor()) + ")";
  }

  @Override public String visit(BoolExpr.Previous previous) { return "previous(" + of(previous.operand()) + ")"; }
  @Override public String visit(BoolExpr.Occupied zone) { return "occupied(z" + zone.zone() + ")"; }
  @Override public String visit(BoolExpr.Enters zone) { return "enters(z" + zone.zone() + ")"; }
  @Override public String visit(BoolExpr.Leaves zone) { return "leaves(z" + zone.zone() + ")"; }
  @Override public String visit(BoolExpr.BacksOut zone) { return "backs_out(z" + zone.zone() + ")"; }
  @Override public String visit(BoolExpr.Miscounts zone) { return "miscounts(z" + zone.zone() + ")"; }
  @Override public String visit(BoolExpr.TraceStart e) { return "start"; }
  @Override public String visit(BoolExpr.TraceEnd e) { return "end"; }
  @Override public String visit(EnumExpr.Literal e) { return "m" + e.index(); }
  @Override public String visit(EnumExpr.Signal e) { return name(e.signal()); }
  @Override public String visit(EnumExpr.Previous e) { return "previous(" + of(e.operand()) + ")"; }
  @Override public String visit(NumExpr.Constant constant) { return Double.toString(constant.value()); }
  @Override public String visit(NumExpr.Signal signal) { return name(signal.signal()); }
  @Override public String visit(NumExpr.Negate negate) { return "-" + of(negate.operand()); }

  @Override
  public String visit(NumExpr.Arithmetic a) {
    return "(" + of(a.left()) + " " + a.operator().symbol() + " " + of(a.right()) + ")";
  }

  @Override
  public String visit(NumExpr.CountInLast count) {
    return "(count(" + of(count.event()) + ") in last " + count.duration() + ")";
  }

  @Override
  public String visit(NumExpr.CountSince count) {
    return "(count(" + of(count.event()) + ") since " + of(count.anchor()) + ")";
  }

  @Override public String visit(NumExpr.TimeSince since) { return "time since " + of(since.event()); }

  @Override
  public String visit(NumExpr.Extreme extreme) {
    return (extreme.greatest() ? "max(" : "min(") + of(extreme.operand()) + ") over " + extreme.duration();
  }

  @Override
  public String visit(NumExpr.Mean mean) {
    return "mean(" + of(mean.operand()) + ") over " + mean.duration();
  }

  @Override public String visit(NumExpr.Rate rate) { return "rate(" + of(rate.operand()) + ")"; }
  @Override public String visit(NumExpr.Previous previous) { return "previous(" + of(previous.operand()) + ")"; }

  @Override
  public String visit(NumExpr.PassingSpeed speed) {
    return "speed(" + of(speed.from()) + ", " + of(speed.to()) + ", " + speed.distance() + ")";
  }

  @Override public String visit(NumExpr.Trains e) { return "trains(z" + e.zone() + ")"; }
}
