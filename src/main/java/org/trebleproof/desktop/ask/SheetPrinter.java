package org.trebleproof.desktop.ask;

import javafx.print.PageLayout;
import javafx.print.PrinterJob;
import javafx.scene.layout.Region;
import javafx.scene.transform.Scale;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Refusal;

/** Prints a sheet by the system's own dialog. */
public final class SheetPrinter {

  private SheetPrinter() {}

  /**
   * Asks for a printer and prints the sheet on one page, as large as that has room for.
   *
   * @return whether it was sent to a printer
   * @throws Refusal if there is none, or it does not take the sheet
   */
  public static boolean print(Region sheet) {
    PrinterJob job = PrinterJob.createPrinterJob();
    if (job == null) {
      throw new Refusal(Texts.of("paper.no.printer"));
    }
    if (!job.showPrintDialog(sheet.getScene().getWindow())) {
      job.cancelJob();
      return false;
    }
    PageLayout page = job.getJobSettings().getPageLayout();
    double share =
        Math.min(
            page.getPrintableWidth() / sheet.getWidth(),
            page.getPrintableHeight() / sheet.getHeight());
    Scale scale = new Scale(share, share);
    sheet.getTransforms().add(scale);
    boolean sent = job.printPage(sheet) && job.endJob();
    sheet.getTransforms().remove(scale);
    if (!sent) {
      throw new Refusal(Texts.of("paper.not.printed", job.getPrinter().getName()));
    }
    return true;
  }
}
