/** The page that a customer keeps: verdict and plots on one sheet, evidence on the next. */
package org.trebleproof.report.page;
