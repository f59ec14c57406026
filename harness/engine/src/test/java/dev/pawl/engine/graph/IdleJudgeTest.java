package dev.pawl.engine.graph;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.FindingListener;
import dev.pawl.engine.plan.Plan;
import dev.pawl.engine.plan.Selection;
import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Source;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * A judge with nothing waiting does not listen to what it asks for: changes of those signals evaluate nobody. It
 * listens again from the moment an obligation arises until all there is to say of it has been said.
 */
class IdleJudgeTest {
  private static final int A = 0;
  private static final int B = 1;
  private static final int C = 2;
  private static final int D = 3;

  private Plan plan;
  private long now;

  private void rule(String rule) {
    Source source = new Source("idle.rules", "input a, b, c, d : bool\nrule R \"\" basis practice " + rule);
    Compilation compilation = RuleLanguage.compile(List.of(source), SourceLoader.none());
    RuleBook book = compilation.book().orElseThrow(() -> new AssertionError(compilation.rendered()));
    plan = new Plan(book, Selection.all(book), EngineOptions.DEFAULT, FindingListener.NONE);
    now = 0;
    for (int signal : List.of(A, B, C, D)) {
      set(signal, 0);
    }
    plan.graph().evaluate(0);
  }

  private void set(int signal, long value) {
    plan.signals()[signal].value = value;
    Node node = plan.signals()[signal].node;
    if (node != null && node.update(Moments.of(now))) {
      plan.graph().markDependents(node);
    }
  }

  private void change(long time, int signal, long value) {
    plan.graph().runBefore(Moments.of(time));
    now = time;
    set(signal, value);
    plan.graph().evaluate(Moments.of(time));
  }

  private boolean heeded(int signal) {
    long all = 0;
    for (Node.Word next = plan.signals()[signal].node.next; next != null; next = next.more) {
      all |= next.marks | next.onRise | next.onFall;
    }
    return all != 0;
  }

  @Test
  void listensFromTheTriggerToTheResponse() {
    rule("when rises(a) unless d must b within 5 ns");
    assertThat(heeded(B) || heeded(D)).isFalse();

    change(1, A, 1);
    assertThat(heeded(B) && heeded(D)).isTrue();
    change(3, B, 1);
    assertThat(heeded(B) || heeded(D)).isFalse();
    assertThat(heeded(A)).as("the trigger is listened to at all times").isTrue();
  }

  /** How late it was is still to be said. */
  @Test
  void listensForALateResponse() {
    rule("when rises(a) must b within 5 ns");
    change(1, A, 1);
    change(20, A, 0);
    assertThat(heeded(B)).isTrue();

    change(30, B, 1);
    assertThat(heeded(B)).isFalse();
  }

  @Test
  void stopsListeningWhenAllIsCancelled() {
    rule("when rises(a) unless d must b within 5 ns, and stay so for 5 ns");
    change(1, A, 1);
    change(2, B, 1);
    assertThat(heeded(B)).isTrue();

    change(3, D, 1);
    assertThat(heeded(B) || heeded(D)).isFalse();
  }

  @Test
  void listensWhileAResponseHasToStay() {
    rule("when rises(a) must b, and stay so until c");
    change(1, B, 1);
    change(2, A, 1);
    assertThat(heeded(B) && heeded(C)).isTrue();

    change(4, C, 1);
    assertThat(heeded(B) || heeded(C)).isFalse();
  }

  @Test
  void listensForAsLongAsAConditionHasToHold() {
    rule("when rises(a) must b throughout 5 ns");
    change(1, B, 1);
    change(2, A, 1);
    assertThat(heeded(B)).isTrue();

    change(8, A, 0);
    assertThat(heeded(B)).isFalse();
  }

  /** After the response the limit is still awaited: it makes the margin. */
  @Test
  void listensUntilTheLimitHasCome() {
    rule("resolution 2 ns when rises(a) must b before c");
    assertThat(heeded(B) || heeded(C)).isFalse();

    change(1, A, 1);
    assertThat(heeded(B) && heeded(C)).isTrue();
    change(3, B, 1);
    change(9, A, 0);
    assertThat(heeded(C)).isTrue();
    change(10, C, 1);
    assertThat(heeded(B) || heeded(C)).isFalse();
  }

  @Test
  void listensToNothingButTheTriggerWhereNothingEverWaits() {
    rule("when rises(a) unless d must b");
    change(1, D, 1);
    change(2, A, 1);

    assertThat(heeded(B) || heeded(D)).isFalse();
  }

}
