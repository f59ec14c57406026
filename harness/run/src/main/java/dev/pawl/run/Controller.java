package dev.pawl.run;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.report.model.Input;
import dev.pawl.trace.bindings.Bindings;
import java.util.List;

/** What answers to the inputs of a source: nothing, a program in Structured Text, or a bench behind MQTT. */
public interface Controller {

  /** Recorded traces are judged as they are. */
  Controller NONE = new Controller() {
    @Override
    public Controlled control(EventSource source, RuleBook book, Bindings bindings) {
      return new Controlled(source, book, false, List.of());
    }

    @Override
    public List<Input> inputs() {
      return List.of();
    }
  };

  /**
   * Puts a source under control. A bench is run through here and now; a program when the source is judged.
   *
   * @param book the rules to judge by, whose signals the controller knows
   * @param bindings what is stated of the signals
   * @throws RunException if it cannot be done
   */
  Controlled control(EventSource source, RuleBook book, Bindings bindings);

  /** Files that it rests on. */
  List<Input> inputs();

  /**
   * What is judged in place of a source, and how.
   *
   * @param source its events
   * @param book the rules, which claim no more than the controller's times allow
   * @param endedEarly whether it is only a part of what was asked for
   * @param cautions what a reader of the report has to bear in mind
   */
  record Controlled(EventSource source, RuleBook book, boolean endedEarly, List<String> cautions) {}
}
