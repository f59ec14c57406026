package dev.pawl.grammar.rules.explain;

import dev.pawl.grammar.rules.model.BoolExpr;
import dev.pawl.grammar.rules.model.Demand;
import dev.pawl.grammar.rules.model.Expr;
import dev.pawl.grammar.rules.model.NumExpr;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import java.util.ArrayList;
import java.util.List;

/**
 * A number or time that a rule is bounded by, whatever name it was written with.
 *
 * @param text with its unit
 * @param value in SI units
 * @param looser which way the rule asks for less
 */
public record Limit(String text, double value, Looser looser) {

  /** Which change of a limit makes a rule ask for less. */
  public enum Looser {
    GREATER,
    LESS,
    /** A person has to say. */
    UNKNOWN
  }

  /** The limits of a rule, in the order of its formula's parts. */
  public static List<Limit> of(Rule rule, RuleBook book) {
    Search search = new Search(book);
    rule.duty().match(search::when, search::always);
    return search.found;
  }

  /** What a formula says but for its numbers. */
  public static String shape(String formula) {
    return formula.replaceAll("(?<![\\w.])-?\\d+(\\.\\d+)?( (h|min|s|ms|us|ns)\\b)?", "#");
  }

  /**
   * The search through a rule. Of a condition it knows whether the rule asks for less where it is true more often (1),
   * for more (-1), or whether nobody can say (0); of a number the same of where it is greater.
   */
  private static final class Search {

    private final RuleBook book;
    private final List<Limit> found = new ArrayList<>();

    Search(RuleBook book) {
      this.book = book;
    }

    private boolean when(Rule.When when) {
      condition(when.trigger(), -1);
      when.whilst().ifPresent(each -> condition(each, -1));
      when.unless().ifPresent(each -> condition(each, 1));
      condition(when.demand().required(), 1);
      when.demand().accept(new DemandSearch());
      return true;
    }

    private boolean always(Rule.Always always) {
      always.whilst().ifPresent(each -> condition(each, -1));
      always.unless().ifPresent(each -> condition(each, 1));
      condition(always.required(), 1);
      return true;
    }

    /** The times of a demand, and how long it has to stay so. */
    private final class DemandSearch implements Demand.Visitor<Boolean> {

      @Override
      public Boolean visit(Demand.AtOnce e) {
        return stay(e);
      }

      @Override
      public Boolean visit(Demand.Within e) {
        time(e.after(), 0);
        time(e.within(), 1);
        return stay(e);
      }

      @Override
      public Boolean visit(Demand.Throughout e) {
        time(e.after(), 0);
        time(e.duration(), -1);
        return stay(e);
      }

      @Override
      public Boolean visit(Demand.Before e) {
        condition(e.limit(), -1);
        return stay(e);
      }

      private boolean stay(Demand demand) {
        demand.stay().ifPresent(stay -> stay.match(stayFor -> time(stayFor.duration(), -1),
            until -> condition(until.release(), 1)));
        return true;
      }
    }

    private boolean time(long nanoseconds, int sign) {
      return limit(Quantities.duration(nanoseconds), nanoseconds / 1e9, sign);
    }

    private boolean limit(String text, double value, int sign) {
      found.add(new Limit(text, value, looser(sign)));
      return true;
    }

    private static Looser looser(int sign) {
      return sign > 0 ? Looser.GREATER : sign < 0 ? Looser.LESS : Looser.UNKNOWN;
    }

    private boolean condition(BoolExpr condition, int sign) {
      condition.accept(new ConditionSearch(sign));
      return true;
    }

    /** What is in a condition. */
    private final class ConditionSearch implements BoolExpr.Question<Boolean> {

      private final int sign;

      ConditionSearch(int sign) {
        this.sign = sign;
      }

      /** Of edges, former values and the like nobody can say. */
      @Override
      public Boolean otherwise(BoolExpr e) {
        return parts(e);
      }

      @Override public Boolean visit(BoolExpr.Not e) { return condition(e.operand(), -sign); }
      @Override public Boolean visit(BoolExpr.Rises e) { return condition(e.operand(), sign); }

      @Override
      public Boolean visit(BoolExpr.And e) {
        return condition(e.left(), sign) && condition(e.right(), sign);
      }

      @Override
      public Boolean visit(BoolExpr.Or e) {
        return condition(e.left(), sign) && condition(e.right(), sign);
      }

      @Override
      public Boolean visit(BoolExpr.HeldFor e) {
        return time(e.duration(), -sign) && condition(e.operand(), sign);
      }

      @Override
      public Boolean visit(BoolExpr.InLast e) {
        return time(e.duration(), sign) && condition(e.operand(), sign);
      }

      @Override
      public Boolean visit(BoolExpr.Since e) {
        return condition(e.operand(), sign) && condition(e.anchor(), 0);
      }

      @Override
      public Boolean visit(BoolExpr.Compare e) {
        int right = switch (e.comparison()) {
          case LESS, AT_MOST -> sign;
          case GREATER, AT_LEAST -> -sign;
          case EQUAL, NOT_EQUAL -> 0;
        };
        number(e.left(), -right, text(e.left(), e.right(), e));
        number(e.right(), right, text(e.right(), e.left(), e));
        if (e.tolerance() > 0) {
          limit("tolerance " + Quantities.number(e.tolerance()), e.tolerance(), 0);
        }
        return true;
      }

      private String text(NumExpr number, NumExpr other, BoolExpr.Compare compare) {
        return number instanceof NumExpr.Constant constant
            ? Quantities.beside(constant.value(), other, compare.dimension(), book) : "";
      }
    }

    private boolean number(NumExpr number, int sign) {
      return number(number, sign, "");
    }

    private boolean number(NumExpr number, int sign, String text) {
      return number.accept(new NumberSearch(sign, text));
    }

    private boolean parts(Expr expression) {
      expression.parts().expressions().forEach(part -> {
        if (part instanceof BoolExpr condition) {
          condition(condition, 0);
        } else if (part instanceof NumExpr number) {
          number(number, 0);
        }
      });
      return true;
    }

    /** What is in a number; a fixed one is shown by the text, where there is one. */
    private final class NumberSearch implements NumExpr.Visitor<Boolean> {

      private final int sign;
      private final String text;

      NumberSearch(int sign, String text) {
        this.sign = sign;
        this.text = text;
      }

      @Override
      public Boolean visit(NumExpr.Constant e) {
        return limit(text.isEmpty() ? Quantities.number(e.value()) : text, e.value(), sign);
      }

      @Override public Boolean visit(NumExpr.Signal e) { return true; }
      @Override public Boolean visit(NumExpr.Negate e) { return number(e.operand(), -sign); }

      @Override
      public Boolean visit(NumExpr.Arithmetic e) {
        return switch (e.operator()) {
          case ADD -> number(e.left(), sign) && number(e.right(), sign);
          case SUBTRACT -> number(e.left(), sign) && number(e.right(), -sign);
          default -> parts(e);
        };
      }

      @Override
      public Boolean visit(NumExpr.CountInLast e) {
        return time(e.duration(), sign) && parts(e);
      }

      @Override public Boolean visit(NumExpr.CountSince e) { return parts(e); }
      @Override public Boolean visit(NumExpr.TimeSince e) { return parts(e); }

      @Override
      public Boolean visit(NumExpr.Extreme e) {
        return time(e.duration(), e.greatest() ? sign : -sign) && number(e.operand(), sign);
      }

      @Override
      public Boolean visit(NumExpr.Mean e) {
        return time(e.duration(), 0) && number(e.operand(), sign);
      }

      @Override public Boolean visit(NumExpr.Rate e) { return parts(e); }
      @Override public Boolean visit(NumExpr.Previous e) { return parts(e); }

      @Override
      public Boolean visit(NumExpr.PassingSpeed e) {
        return limit(Quantities.number(e.distance()) + " m", e.distance(), sign) && parts(e);
      }

      @Override public Boolean visit(NumExpr.Trains e) { return true; }
    }
  }
}
