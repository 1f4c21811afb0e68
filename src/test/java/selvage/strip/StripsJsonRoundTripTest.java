package selvage.strip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import selvage.color.Aim;
import selvage.color.AimSource;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.InkMixture;
import selvage.survey.JobFile;

class StripsJsonRoundTripTest {
  private static Patch patch(String id, PatchSet set, InkMixture mixture, AimSource source) {
    return new Patch(
        id,
        set,
        "spot-tint",
        mixture,
        new Aim(new Lab(46.1234, -30.2, 28), source),
        22.125,
        set == PatchSet.JOB ? 100 : 0,
        1,
        3,
        new BoxMm(13.001, 12.5, 10, 9),
        set == PatchSet.JOB ? Optional.of(Reason.SPOT_TINT) : Optional.empty(),
        set == PatchSet.JOB
            ? Optional.of(new PatchPlace(2, new BoxMm(20.32, 101.6, 40.64, 6.774)))
            : Optional.empty());
  }

  private static StripsFile file() {
    InkMixture mixture = InkMixture.ofPercents(Map.of("Dune \"Red\" ü", 33.0, "Black", 12.5));
    Strip strip =
        new Strip(
            "7K3M-Q9TD",
            2,
            1,
            new Strip.Place("bottom", true, 0, -216.5, 595.2756, 216.5, 3, false),
            new Strip.Reader("handheld-spot", 4.5),
            List.of(
                patch("J01", PatchSet.JOB, mixture, AimSource.PREDICTED),
                patch("S01", PatchSet.STANDARD, InkMixture.PAPER, AimSource.CONDITION_NODE)),
            new Coverage(91.5, 95.625, 0.4375, 41.25),
            List.of(new PageShare(1, 62.5, 96.25), new PageShare(2, 37.5, 94.125)));
    return new StripsFile(
        new JobFile("flyer.pdf", "ab".repeat(32), 2),
        "flyer.proof.pdf",
        "FOGRA39",
        "built-in",
        List.of(strip),
        List.of(
            new StripLabel.Item("Evaluated as", "contract proof"),
            new StripLabel.Item("Ink set", "")));
  }

  private static StripsFile read(String json) throws InputException {
    return StripsJson.read("p.strips.json", json.getBytes(StandardCharsets.UTF_8));
  }

  @Test
  void read_whatWasWritten_isTheSame() throws Exception {
    String json = StripsJson.write(file(), List.of(Finding.note("some-doubt", "a doubt")));
    assertThat(read(json)).isEqualTo(file());
    assertThat(json).contains("\"condition-node\"", "\"within_de00_2\" : 91.5", "some-doubt");
  }

  @ParameterizedTest
  @EnumSource(Reason.class)
  void read_everyReason_isTheSame(Reason reason) throws Exception {
    String json = StripsJson.write(file(), List.of());
    StripsFile found = read(json.replace("\"spot-tint\",", "\"" + reason.word() + "\","));
    assertThat(found.strips().get(0).patches().get(0).reason()).contains(reason);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "\"Black\" : 12.5 | \"Black\" : 112.5 | strips[0].patches[0].inks.Black",
        "\"set\" : \"job\" | \"set\" : \"jobs\" | strips[0].patches[0].set",
        "[ 46.1234, -30.2, 28.0 ] | [ 46.1234, -30.2 ] | strips[0].patches[0].aim_lab",
        "\"row\" : 1 | \"row\" : 0 | strips[0].patches[0].row",
        "\"selvage\" : 1 | \"selvage\" : 2 | version 1",
        "\"aperture_mm\" : 4.5 | \"aperture_mm\" : \"4.5\" | strips[0].reader.aperture_mm",
        "\"proof_page\" : 3 | \"proof_page\" : 0 | strips[0].place.proof_page",
        "\"own_page\" : false | \"own_page\" : \"no\" | strips[0].place.own_page",
        "\"own_page\" : false | \"own_page\" : true | strips[0].place.own_page",
        "\"media_extended\" : true | \"media_extended\" : 1 | strips[0].place.media_extended",
        "\"id\" : \"S01\", | \"id\" : \"\", | strips[0].patches[1].id",
      })
  void read_wrongField_saysWhere(String right, String wrong, String place) {
    String json = StripsJson.write(file(), List.of());
    assertThat(json).contains(right.strip());
    String changed = json.replaceFirst(java.util.regex.Pattern.quote(right.strip()), wrong.strip());
    assertThatThrownBy(() -> read(changed))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("p.strips.json: ")
        .hasMessageContaining(place.strip());
  }

  @Test
  void read_fileOfBeforeThereWereOwnPages_liesOnTheJobsPage() throws Exception {
    String json = StripsJson.write(file(), List.of());
    String older = json.replaceFirst(",\\s*\"proof_page\" : 3,\\s*\"own_page\" : false", "");
    assertThat(older).doesNotContain("proof_page", "own_page");
    Strip.Place place = read(older).strips().get(0).place();
    assertThat(place.proofPage()).isEqualTo(2);
    assertThat(place.ownPage()).isFalse();
    assertThat(place.mediaExtended()).isTrue();
  }

  @Test
  void read_noJson_isRefused() {
    assertThatThrownBy(() -> read("%PDF-1.7")).isInstanceOf(InputException.class);
    assertThatThrownBy(() -> read("")).isInstanceOf(InputException.class);
    assertThatThrownBy(() -> read("[]")).isInstanceOf(InputException.class);
    assertThatThrownBy(() -> read(StripsJson.write(file(), List.of()).substring(0, 900)))
        .isInstanceOf(InputException.class);
  }
}
