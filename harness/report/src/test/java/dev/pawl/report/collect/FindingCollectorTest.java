package dev.pawl.report.collect;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.engine.Finding;
import dev.pawl.report.SampleRide;
import dev.pawl.report.model.TimeBase;
import dev.pawl.report.model.TraceResult;
import java.util.List;
import org.junit.jupiter.api.Test;

class FindingCollectorTest {

  @Test
  void theFirstFindingsOfEachKindAreKeptAndTheRestOnlyCounted() {
    TraceResult trace = SampleRide.trace();
    assertThat(trace.rules().get(0).broken()).hasSize(2);
    assertThat(trace.rules().get(0).obligations().missed()).isEqualTo(3);
    assertThat(trace.rules().get(3).doubtful()).hasSize(1);
    assertThat(trace.zones().get(0).findings()).hasSize(2);
  }

  @Test
  void aLateResponseFindsItsObligation() {
    FindingCollector findings = SampleRide.findings(3);
    assertThat(findings.broken(0).get(0).late()).hasValue(724_200 * SampleRide.MS);
    assertThat(findings.broken(0).get(1).late()).isEmpty();
  }

  @Test
  void onlyARuleWithADeadlineGetsOne() {
    FindingCollector findings = new FindingCollector(SampleRide.book(), 5);
    findings.finding(new Finding(1, Finding.Kind.FALSE_STATE, 5, 5, false, 5, List.of()));
    TraceResult trace = new ResultBuilder(SampleRide.book(), "t", TimeBase.START)
        .build(SampleRide.outcome(), findings, SampleRide.reading(), 1, 1, false);
    assertThat(trace.rules().get(1).broken().get(0).deadline()).isEmpty();
    assertThat(SampleRide.trace().rules().get(0).broken().get(0).deadline()).hasValue(723_950 * SampleRide.MS);
  }
}
