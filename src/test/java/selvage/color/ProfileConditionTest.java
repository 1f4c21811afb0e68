package selvage.color;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import selvage.finding.Finding;
import selvage.finding.InputException;
import selvage.ink.Tint;

class ProfileConditionTest {
  static Stream<Arguments> cmykProfiles() {
    return Stream.of(
        Arguments.of("version 2, 16 bits", TestProfiles.cmykVersion2()),
        Arguments.of("version 2, 8 bits", TestProfiles.cmykEightBit()),
        Arguments.of("version 4, mAB", TestProfiles.cmykVersion4()));
  }

  private static ConditionChoice choice(byte[] profile) throws InputException {
    return ProfileCondition.of(
        IccProfile.parse("press.icc", profile), "", ReferenceCondition.Origin.FILE);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cmykProfiles")
  void aim_randomInks_agreesWithAnotherEngine(String kind, byte[] profile, @TempDir Path folder)
      throws Exception {
    Transicc.assumePresent();
    Path file = Files.write(folder.resolve("press.icc"), profile);
    assertAgrees(file, choice(profile).condition());
  }

  /** The public profile of the shared folder, where that is at hand. */
  @Test
  void aim_publicProfile_agreesWithAnotherEngine() throws Exception {
    Path file = Path.of("..", "shared", "datasets", "coated-fogra39-300.icc");
    if (Files.exists(file)) {
      Transicc.assumePresent();
      assertAgrees(file, ReferenceConditions.resolve(file.toString()).condition());
    }
  }

  private static void assertAgrees(Path file, ReferenceCondition condition) throws Exception {
    Random random = new Random(39);
    List<double[]> inks = new ArrayList<>();
    inks.add(new double[4]);
    inks.add(new double[] {100, 100, 100, 100});
    while (inks.size() < 600) {
      inks.add(random.doubles(4, 0, 100).toArray());
    }
    List<double[]> expected = Transicc.toLab(file, Transicc.ABSOLUTE, inks);
    assertThat(expected).hasSameSizeAs(inks);
    for (int i = 0; i < inks.size(); i++) {
      double[] p = inks.get(i);
      Aim aim = condition.aim(p[0], p[1], p[2], p[3]);
      assertThat(aim.source()).isEqualTo(AimSource.CONDITION);
      assertThat(new double[] {aim.lab().l(), aim.lab().a(), aim.lab().b()})
          .as("Lab at %s", Arrays.toString(p))
          .containsExactly(expected.get(i), within(0.02));
    }
  }

  @Test
  void aims_manyRows_equalSingleAims() throws Exception {
    ReferenceCondition condition = choice(TestProfiles.cmykVersion2()).condition();
    Random random = new Random(3);
    char[] tints = new char[4 * 200];
    for (int i = 0; i < tints.length; i++) {
      tints[i] = (char) random.nextInt(Tint.FULL + 1);
    }
    float[] lab = new float[3 * 200];
    AimSource[] sources = new AimSource[200];
    condition.aims(tints, 200, lab, sources);
    for (int row = 0; row < 200; row++) {
      double percent = 100.0 / Tint.FULL;
      Lab single =
          condition
              .aim(
                  tints[4 * row] * percent,
                  tints[4 * row + 1] * percent,
                  tints[4 * row + 2] * percent,
                  tints[4 * row + 3] * percent)
              .lab();
      assertThat(lab[3 * row]).isCloseTo((float) single.l(), within(1e-4f));
      assertThat(lab[3 * row + 1]).isCloseTo((float) single.a(), within(1e-4f));
      assertThat(lab[3 * row + 2]).isCloseTo((float) single.b(), within(1e-4f));
    }
  }

  @Test
  void paper_profile_isItsMediaWhite() throws Exception {
    Lab paper = choice(TestProfiles.cmykVersion2()).condition().paper();
    Lab white = ReferenceWhite.ICC_PCS.toLab(new Xyz(86, 88, 70));
    assertThat(ColorDifference.de76(white, paper)).isLessThan(0.02);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("cmykProfiles")
  void separate_white_isExactlyNoInk(String kind, byte[] profile) throws Exception {
    assertThat(choice(profile).condition().separate(new Lab(100, 0, 0)))
        .containsExactly(0, 0, 0, 0);
  }

  @Test
  void of_profileWithoutColorimetricTable_saysSo() throws Exception {
    ConditionChoice choice = choice(TestProfiles.cmykPerceptualOnly());
    assertThat(choice.findings())
        .extracting(Finding::code)
        .containsExactly("profile-without-colorimetric-table", "profile-without-separation-table");
    float[] black = choice.condition().separate(new Lab(0, 0, 0));
    assertThat(black[3]).isCloseTo(1f, within(0.001f));
  }

  @Test
  void of_profileOfVersion2_takesItsDescriptionAsName() throws Exception {
    assertThat(choice(TestProfiles.cmykVersion2()).condition().name())
        .isEqualTo("invented press 2");
  }

  @Test
  void of_rgbProfile_isRefused() {
    assertThatThrownBy(() -> choice(TestProfiles.rgb(2)))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "press.icc: expected a CMYK output profile, found one for RGB; give the profile of the"
                + " printing condition");
  }

  @Test
  void parse_damagedProfiles_areRefusedOrRead() {
    byte[][] profiles = {
      TestProfiles.cmykVersion2(), TestProfiles.cmykVersion4(), TestProfiles.cmykEightBit()
    };
    Random random = new Random(11);
    int refused = 0;
    for (int i = 0; i < 600; i++) {
      byte[] profile = profiles[i % 3].clone();
      if (i % 5 == 0) {
        profile = Arrays.copyOf(profile, random.nextInt(profile.length));
      } else {
        for (int damage = 0; damage < 3; damage++) {
          profile[random.nextInt(400)] = (byte) random.nextInt(256);
        }
      }
      byte[] damaged = profile;
      refused +=
          Assertions.assertTimeoutPreemptively(Duration.ofSeconds(20), () -> use(damaged)) ? 0 : 1;
    }
    assertThat(refused).isBetween(100, 599);
  }

  /** Whether the profile was taken; anything but an InputException fails the test. */
  private static boolean use(byte[] profile) {
    try {
      ReferenceCondition condition = choice(profile).condition();
      assertThat(condition.aim(20, 40, 60, 10).lab()).isNotNull();
      assertThat(condition.separate(new Lab(50, 20, 10))).hasSize(4);
      return true;
    } catch (InputException e) {
      assertThat(e).hasMessageStartingWith("press.icc: expected ");
      return false;
    }
  }
}
