package selvage.sheet;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBoolean;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSInteger;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;
import selvage.strip.BoxMm;
import selvage.strip.StripDrawing;
import selvage.strip.StripLayout;

/**
 * A strip as a form: its own resources, units of a millimetre, overprint off, no group. Each patch
 * is one fill; paper is left bare.
 */
final class StripForm {
  private static final double MM_PER_PT = 25.4 / 72;
  private static final COSName FONT = COSName.getPDFName("F1");
  private static final COSName PLAIN = COSName.getPDFName("GS1");

  private StripForm() {}

  /**
   * Makes the form for a layout.
   *
   * @param pageHasDefaultCmyk whether the page gives DeviceCMYK another meaning. A form does not
   *     inherit that, but some renderers think so; the form then says that DeviceCMYK is DeviceCMYK
   */
  static PDFormXObject of(
      PDDocument document,
      StripLayout layout,
      PatchColors colors,
      StripFont font,
      boolean pageHasDefaultCmyk)
      throws IOException {
    StringBuilder content = new StringBuilder("/GS1 gs\n");
    for (StripLayout.Placed placed : layout.placed()) {
      String color = colors.operators(placed.patch().mixture());
      if (!color.isEmpty()) {
        content.append(color);
        appendRectangle(content, placed.box());
        content.append("f\n");
      }
    }
    appendDrawing(content, layout.drawing(), font);

    PDResources resources = new PDResources();
    COSDictionary plain = new COSDictionary();
    plain.setItem(COSName.TYPE, COSName.EXT_G_STATE);
    plain.setItem(COSName.getPDFName("OP"), COSBoolean.FALSE);
    plain.setItem(COSName.getPDFName("op"), COSBoolean.FALSE);
    plain.setItem(COSName.getPDFName("OPM"), COSInteger.ZERO);
    COSDictionary states = new COSDictionary();
    states.setItem(PLAIN, plain);
    resources.getCOSObject().setItem(COSName.EXT_G_STATE, states);
    COSDictionary spaces = colors.colorSpaces();
    if (pageHasDefaultCmyk) {
      COSArray plainCmyk = new COSArray();
      plainCmyk.add(COSName.DEVICECMYK);
      spaces.setItem(COSName.getPDFName("DefaultCMYK"), plainCmyk);
    }
    if (spaces.size() > 0) {
      resources.getCOSObject().setItem(COSName.COLORSPACE, spaces);
    }
    resources.put(FONT, font.font());

    PDFormXObject form = new PDFormXObject(document);
    form.setResources(resources);
    form.setBBox(new PDRectangle((float) layout.widthMm(), (float) layout.heightMm()));
    try (OutputStream out = form.getCOSObject().createOutputStream(COSName.FLATE_DECODE)) {
      out.write(content.toString().getBytes(StandardCharsets.US_ASCII));
    }
    return form;
  }

  private static void appendDrawing(StringBuilder content, StripDrawing drawing, StripFont font)
      throws IOException {
    content.append("0 0 0 1 k\n");
    for (BoxMm bar : drawing.bars()) {
      appendRectangle(content, bar);
    }
    content.append("f\n");
    for (BoxMm arrow : drawing.arrows()) {
      double x = arrow.xMm();
      double y = arrow.yMm();
      content.append(number(x)).append(' ').append(number(y)).append(" m ");
      content.append(number(x)).append(' ').append(number(y + arrow.heightMm())).append(" l ");
      content.append(number(x + arrow.widthMm())).append(' ');
      content.append(number(y + arrow.heightMm() / 2)).append(" l h f\n");
    }
    content.append("BT\n");
    for (StripDrawing.Text text : drawing.texts()) {
      content.append('/').append(FONT.getName()).append(' ');
      content.append(number(text.sizePt() * MM_PER_PT)).append(" Tf 1 0 0 1 ");
      content.append(number(text.xMm())).append(' ').append(number(text.baselineMm()));
      content.append(" Tm ").append(font.hexString(text.text())).append(" Tj\n");
    }
    content.append("ET\n");
  }

  private static void appendRectangle(StringBuilder content, BoxMm box) {
    content.append(number(box.xMm())).append(' ').append(number(box.yMm())).append(' ');
    content.append(number(box.widthMm())).append(' ').append(number(box.heightMm()));
    content.append(" re\n");
  }

  /** A number with at most four decimals. */
  static String number(double value) {
    String text = String.format(Locale.ROOT, "%.4f", value);
    int end = text.length();
    while (text.charAt(end - 1) == '0') {
      end--;
    }
    return text.substring(0, text.charAt(end - 1) == '.' ? end - 1 : end);
  }
}
