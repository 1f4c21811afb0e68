package selvage.review;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import selvage.finding.InputException;
import selvage.ink.InkMixture;
import selvage.strip.ChosenPatch;
import selvage.strip.Reason;

class ReviewTest {
  private static final Instant TIME = Instant.parse("2026-11-30T10:00:00Z");
  private static final InkMixture CYAN = InkMixture.cmyk(100, 0, 0, 0);
  private static final InkMixture RED = InkMixture.cmyk(0, 100, 100, 0);

  @TempDir private Path folder;
  private Path area;
  private Review review;

  @BeforeEach
  void begin() throws IOException {
    area = folder.resolve("0123456789abcdef0123456789abcdef");
    Path file = Files.writeString(folder.resolve("upload"), "a job");
    review = Review.begin(area, "flyer.pdf", "house", file, "Ada", TIME);
  }

  private static PageChoice choice(InkMixture... mixtures) {
    List<ChosenPatch> patches =
        List.of(mixtures).stream().map(one -> new ChosenPatch(one, Reason.COVERAGE)).toList();
    return new PageChoice(patches, Set.of(mixtures[0]), Set.of(), 24, false);
  }

  private void change(PageChoice to) throws Exception {
    review.change(review.version(), "Ada", TIME, Change.Kind.DROPPED, 1, "left out", to);
  }

  @Test
  void read_afterChanges_isTheSameReview() throws Exception {
    change(choice(CYAN, RED));
    change(choice(RED));
    review.undo(review.version(), "Ben", TIME);
    Review again = Review.read(area);
    assertThat(again.changes()).isEqualTo(review.changes()).hasSize(4);
    assertThat(again.choices()).isEqualTo(review.choices());
    assertThat(again.choices().get(1).patches()).hasSize(2);
    assertThat(again.name()).isEqualTo("flyer.pdf");
    assertThat(again.folder()).isEqualTo("house");
    assertThat(again.job()).hasContent("a job");
    assertThat(again.changes().get(3).who()).isEqualTo("Ben");
  }

  @Test
  void undo_andRedo_walkThroughTheSets() throws Exception {
    change(choice(CYAN, RED));
    change(choice(RED));
    review.undo(3, "Ada", TIME);
    review.undo(4, "Ada", TIME);
    assertThat(review.choices()).isEmpty();
    assertThat(review.canUndo()).isFalse();
    review.redo(5, "Ada", TIME);
    assertThat(review.choices().get(1)).isEqualTo(choice(CYAN, RED));
    change(choice(CYAN));
    assertThat(review.canRedo()).as("a new change ends what could be made again").isFalse();
  }

  @Test
  void change_onAnOldVersion_isRefused() throws Exception {
    change(choice(CYAN));
    assertThatThrownBy(
            () -> review.change(1, "Ben", TIME, Change.Kind.DROPPED, 1, "left out", choice(RED)))
        .isInstanceOf(Review.StaleException.class);
    assertThat(review.changes()).hasSize(2);
  }

  @Test
  void change_afterApproval_isRefused() throws Exception {
    review.approve("Ada", TIME, "approved");
    assertThatThrownBy(() -> change(choice(CYAN))).isInstanceOf(Review.StaleException.class);
    assertThat(Review.read(area).approval()).isPresent();
  }

  @Test
  void read_lastLineCutOff_goesOnWithoutIt() throws Exception {
    change(choice(CYAN));
    Path changes = area.resolve(Review.CHANGES);
    Files.writeString(changes, "{\"time\":\"2026-11-30T10:00", StandardOpenOption.APPEND);
    Review again = Review.read(area);
    assertThat(again.changes()).hasSize(2);
    again.undo(2, "Ada", TIME);
    assertThat(Review.read(area).changes()).hasSize(3);
  }

  @Test
  void read_nonsenseInAWholeLine_saysWhere() throws Exception {
    Files.writeString(area.resolve(Review.CHANGES), "nonsense\n", StandardOpenOption.APPEND);
    assertThatThrownBy(() -> Review.read(area))
        .isInstanceOf(InputException.class)
        .hasMessageContaining(Review.CHANGES + ":2");
  }
}
