package selvage.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.ledger.JobRecord;
import selvage.ledger.Ledger;
import selvage.ledger.LedgerFixture;
import selvage.measurement.LabShift;
import selvage.score.Verdict;

class ProofListTest {
  @TempDir Path folder;

  @Test
  void model_manyJobs_byPageTextAndState() throws Exception {
    try (Ledger ledger = Ledger.open(folder.resolve("a.db").toString())) {
      ledger.together(
          () -> {
            for (int i = 1; i <= 101; i++) {
              ledger.fileJob(LedgerFixture.stamped(i, "flyer " + i + ".pdf"), Optional.empty());
            }
            ledger.fileJob(LedgerFixture.refused(102, "bad.pdf", "no PDF"), Optional.empty());
          });
      ledger.fileScore(
          LedgerFixture.score(1, 101), LedgerFixture.scoreJson(new LabShift(0, 0, 0), "AAAA-0001"));
      ProofList list = new ProofList(ledger);

      ProofListView first = list.model("", "", "");
      assertThat(first.total()).isEqualTo(102);
      assertThat(first.pages()).isEqualTo(2);
      assertThat(first.rows()).hasSize(100);
      assertThat(first.rows().get(0).job().state()).isEqualTo(JobRecord.State.REFUSED);
      assertThat(first.rows().get(1).last().orElseThrow().verdict()).isEqualTo(Verdict.PASS);
      assertThat(list.model("", "", "2").rows()).hasSize(2);
      assertThat(list.model("", "", "99").page()).isEqualTo(2);
      assertThat(list.model("", "", "../2").page()).isEqualTo(1);
      assertThat(list.model("FLYER 10", "", "").total()).isEqualTo(3);
      assertThat(list.model("", "refused", "").total()).isEqualTo(1);
      assertThat(list.model("", "<b>", "").filtered()).isFalse();
      assertThat(list.model("a&b=<c>", "refused", "").query())
          .isEqualTo("text=a%26b%3D%3Cc%3E&state=refused");
    }
  }
}
