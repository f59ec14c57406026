package dev.pawl.engine.proof;

import dev.pawl.engine.EventSink;
import dev.pawl.engine.reference.Trace;
import dev.pawl.engine.reference.TraceEvent;
import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.EnumExpr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.Signal;
import dev.pawl.grammar.rules.model.ValueType;
import dev.pawl.grammar.rules.model.Zone;
import java.util.List;
import java.util.Optional;

/** Rule books and traces written out to be read, close to the rule language; durations are in nanoseconds. */
final class RuleText {
  private final List<Signal> signals;

  private RuleText(RuleBook book) {
    this.signals = book.signals();
  }

  static String of(RuleBook book, Trace trace) {
    RuleText text = new RuleText(book);
    StringBuilder out = new StringBuilder();
    book.zones().forEach(zone -> out.append(text.zone(zone)).append('\n'));
    book.rules().forEach(rule -> out.append(text.rule(rule)).append('\n'));
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
    return "zone " + zone.name() + " enter " + boundary(zone.entry(), true) + " leave " + boundary(zone.exit(), false) + " holds "
        + zone.holds() + starts;
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
      return head + "when " + of(when.trigger()) + scope + " must " + demand(when.demand());
    }
    return head + "always " + of(((Rule.Always) rule.duty()).required()) + scope;
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

  private String of(BoolExpr e) {
    if (e instanceof BoolExpr.Constant constant) {
      return Boolean.toString(constant.value());
    } else if (e instanceof BoolExpr.Signal signal) {
      return name(signal.signal());
    } else if (e instanceof BoolExpr.Not not) {
      return "not " + of(not.operand());
    } else if (e instanceof BoolExpr.And and) {
      return "(" + of(and.left()) + " and " + of(and.right()) + ")";
    } else if (e instanceof BoolExpr.Or or) {
      return "(" + of(or.left()) + " or " + of(or.right()) + ")";
    } else if (e instanceof BoolExpr.Same same) {
      return "(" + of(same.left()) + " = " + of(same.right()) + ")";
    } else if (e instanceof BoolExpr.Compare compare) {
      String tolerance = compare.tolerance() == 0 ? "" : " tolerance " + compare.tolerance();
      return "(" + of(compare.left()) + " " + compare.comparison().symbol() + " " + of(compare.right()) + tolerance + ")";
    } else if (e instanceof BoolExpr.EnumEquals equals) {
      return "(" + of(equals.left()) + " = " + of(equals.right()) + ")";
    }
    return ofEvent(e);
  }

  private String ofEvent(BoolExpr e) {
    if (e instanceof BoolExpr.Rises rises) {
      return "rises(" + of(rises.operand()) + ")";
    } else if (e instanceof BoolExpr.Falls falls) {
      return "falls(" + of(falls.operand()) + ")";
    } else if (e instanceof BoolExpr.BoolChanges changes) {
      return "changes(" + of(changes.operand()) + ")";
    } else if (e instanceof BoolExpr.NumChanges changes) {
      return "changes(" + of(changes.operand()) + ")";
    } else if (e instanceof BoolExpr.EnumChanges changes) {
      return "changes(" + of(changes.operand()) + ")";
    } else if (e instanceof BoolExpr.HeldFor held) {
      return "(" + of(held.operand()) + " for " + held.duration() + ")";
    } else if (e instanceof BoolExpr.InLast inLast) {
      return "(" + of(inLast.operand()) + " in last " + inLast.duration() + ")";
    } else if (e instanceof BoolExpr.Since since) {
      return "(" + of(since.operand()) + " since " + of(since.anchor()) + ")";
    } else if (e instanceof BoolExpr.Previous previous) {
      return "previous(" + of(previous.operand()) + ")";
    }
    return ofPlace(e);
  }

  private String ofPlace(BoolExpr e) {
    if (e instanceof BoolExpr.Occupied zone) {
      return "occupied(z" + zone.zone() + ")";
    } else if (e instanceof BoolExpr.Enters zone) {
      return "enters(z" + zone.zone() + ")";
    } else if (e instanceof BoolExpr.Leaves zone) {
      return "leaves(z" + zone.zone() + ")";
    } else if (e instanceof BoolExpr.BacksOut zone) {
      return "backs_out(z" + zone.zone() + ")";
    } else if (e instanceof BoolExpr.Miscounts zone) {
      return "miscounts(z" + zone.zone() + ")";
    }
    return e instanceof BoolExpr.TraceStart ? "start" : "end";
  }

  private String of(EnumExpr e) {
    if (e instanceof EnumExpr.Literal literal) {
      return "m" + literal.index();
    } else if (e instanceof EnumExpr.Signal signal) {
      return name(signal.signal());
    }
    return "previous(" + of(((EnumExpr.Previous) e).operand()) + ")";
  }

  private String of(NumExpr e) {
    if (e instanceof NumExpr.Constant constant) {
      return Double.toString(constant.value());
    } else if (e instanceof NumExpr.Signal signal) {
      return name(signal.signal());
    } else if (e instanceof NumExpr.Negate negate) {
      return "-" + of(negate.operand());
    } else if (e instanceof NumExpr.Arithmetic a) {
      return "(" + of(a.left()) + " " + a.operator().symbol() + " " + of(a.right()) + ")";
    } else if (e instanceof NumExpr.CountInLast count) {
      return "(count(" + of(count.event()) + ") in last " + count.duration() + ")";
    } else if (e instanceof NumExpr.CountSince count) {
      return "(count(" + of(count.event()) + ") since " + of(count.anchor()) + ")";
    } else if (e instanceof NumExpr.TimeSince since) {
      return "time since " + of(since.event());
    } else if (e instanceof NumExpr.Extreme extreme) {
      return (extreme.greatest() ? "max(" : "min(") + of(extreme.operand()) + ") over " + extreme.duration();
    } else if (e instanceof NumExpr.Mean mean) {
      return "mean(" + of(mean.operand()) + ") over " + mean.duration();
    } else if (e instanceof NumExpr.Rate rate) {
      return "rate(" + of(rate.operand()) + ")";
    } else if (e instanceof NumExpr.Previous previous) {
      return "previous(" + of(previous.operand()) + ")";
    } else if (e instanceof NumExpr.PassingSpeed speed) {
      return "speed(" + of(speed.from()) + ", " + of(speed.to()) + ", " + speed.distance() + ")";
    }
    return "trains(z" + ((NumExpr.Trains) e).zone() + ")";
  }
}
