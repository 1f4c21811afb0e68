package selvage.cxf;

import java.util.Objects;
import java.util.OptionalDouble;

/**
 * A ColorSpecification: what values are for and how they were measured. Texts are the file's own,
 * empty where it says nothing.
 *
 * @param illuminant for example {@code D50}
 * @param observer for example {@code 2_Degree}
 * @param illumination for example {@code M1_Daylight}
 * @param polarization the text of DevicePolarization
 * @param filter the text of DeviceFilter
 * @param backing for example {@code White}
 * @param geometry angles and configuration, parted by blanks
 * @param startNm first wavelength of spectra
 * @param stepNm step of spectra
 * @param line in the file, counted from 1
 */
public record CxfSpecification(
    String illuminant,
    String observer,
    String illumination,
    String polarization,
    String filter,
    String backing,
    String geometry,
    OptionalDouble startNm,
    OptionalDouble stepNm,
    int line) {
  /** Nothing is said. */
  public static final CxfSpecification NONE =
      new CxfSpecification(
          "", "", "", "", "", "", "", OptionalDouble.empty(), OptionalDouble.empty(), 1);

  public CxfSpecification {
    Objects.requireNonNull(startNm, "startNm");
    Objects.requireNonNull(stepNm, "stepNm");
  }
}
