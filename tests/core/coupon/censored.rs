use layload_core::coupon::regression::Regression;

/// ASTM E739-91, strain-life example: data from memory, result verified by least squares (numpy). log10 N = A + B log10 e.
#[test]
fn e739_example() {
    let data = [
        (0.01636, 168.0),
        (0.01609, 200.0),
        (0.00675, 1000.0),
        (0.00682, 1180.0),
        (0.00179, 4730.0),
        (0.00160, 8035.0),
        (0.00165, 5254.0),
        (0.00053, 28617.0),
        (0.00054, 32650.0),
    ];
    let rows: Vec<Vec<f64>> = data.iter().map(|(e, _)| vec![1.0, libm::log10(*e)]).collect();
    let lives: Vec<f64> = data.iter().map(|(_, n)| libm::log10(*n)).collect();
    let fit = Regression::new(&rows, &lives, &[false; 9]).unwrap();
    assert!((fit.coefficients[0] + 0.24474).abs() < 1e-5, "{:?}", fit.coefficients);
    assert!((fit.coefficients[1] + 1.45144).abs() < 1e-5, "{:?}", fit.coefficients);
    assert!((fit.deviation * fit.deviation - 0.011_195).abs() < 1e-6, "{}", fit.deviation);
    assert_eq!(fit.freedom(), 7);
    // E739 prints t 0.975 with 7 degrees as 2.3646; its range of B is then B -+ t s / sqrt(sum of squares of x).
    let mean = rows.iter().map(|r| r[1]).sum::<f64>() / 9.0;
    let squares: f64 = rows.iter().map(|r| (r[1] - mean) * (r[1] - mean)).sum();
    let reach = 2.3646 * fit.deviation / squares.sqrt();
    let (low, high) = fit.range(1, 0.95);
    assert!((low - (fit.coefficients[1] - reach)).abs() < 1e-5 && (high - (fit.coefficients[1] + reach)).abs() < 1e-5);
    // Its band of the line: sqrt(2 F(2, 7) 0.95) = sqrt(2 x 4.7374) standard errors (F from the standard's table).
    let at = [1.0, -2.0];
    let error = fit.deviation * (1.0 / 9.0 + (at[1] - mean) * (at[1] - mean) / squares).sqrt();
    assert!((fit.band(&at, 0.95) - (2.0_f64 * 4.7374).sqrt() * error).abs() < 1e-4);
}

/// Motor insulation at four temperatures, 10 pieces each, hours: Nelson & Hahn, Technometrics 14 (1972), 247; with run-outs
/// at 8064, 5448, 1680 and 528 h. Schmee & Hahn, Technometrics 21 (1979), 417, print the maximum of the likelihood of
/// log10 h = b0 + b1 1000/(T + 273.2) as b0 = -6.019, b1 = 4.311, s = 0.2592 (data and result from memory; the test fails
/// for any slip in them).
#[test]
fn insulation_with_run_outs() {
    let groups: [(f64, &[f64], f64, usize); 4] = [
        (150.0, &[], 8064.0, 10),
        (170.0, &[1764.0, 2772.0, 3444.0, 3542.0, 3780.0, 4860.0, 5196.0], 5448.0, 3),
        (190.0, &[408.0, 408.0, 1344.0, 1344.0, 1440.0], 1680.0, 5),
        (220.0, &[408.0, 408.0, 504.0, 504.0, 504.0], 528.0, 5),
    ];
    let (mut rows, mut logs, mut outs) = (Vec::new(), Vec::new(), Vec::new());
    for (celsius, failed, stopped, count) in groups {
        let row = vec![1.0, 1000.0 / (celsius + 273.2)];
        for hours in failed {
            rows.push(row.clone());
            logs.push(libm::log10(*hours));
            outs.push(false);
        }
        for _ in 0..count {
            rows.push(row.clone());
            logs.push(libm::log10(stopped));
            outs.push(true);
        }
    }
    let fit = Regression::new(&rows, &logs, &outs).unwrap();
    assert_eq!((fit.failures, fit.run_outs), (17, 23));
    // To the digits printed.
    assert!((fit.coefficients[0] + 6.019).abs() < 6e-4, "{:?}", fit.coefficients);
    assert!((fit.coefficients[1] - 4.311).abs() < 6e-4, "{:?}", fit.coefficients);
    assert!((fit.likeliest_deviation - 0.2592).abs() < 6e-5, "{}", fit.likeliest_deviation);
}

#[test]
fn run_outs_lengthen_lives_and_do_not_count_as_failures() {
    let rows: Vec<Vec<f64>> = (0..8).map(|k| vec![1.0, f64::from(k) / 8.0]).collect();
    let y: Vec<f64> = (0..8).map(|k| 5.0 - f64::from(k) / 4.0 + if k % 2 == 0 { 0.1 } else { -0.1 }).collect();
    let mut outs = [false; 8];
    let all = Regression::new(&rows, &y, &outs).unwrap();
    outs[0] = true;
    let one_out = Regression::new(&rows, &y, &outs).unwrap();
    assert!(one_out.at(&[1.0, 0.0]) > all.at(&[1.0, 0.0]));
    assert_eq!(one_out.freedom(), 5);
}

#[test]
fn too_little_is_refused() {
    let row = vec![1.0, 2.0];
    assert!(Regression::new(&[], &[], &[]).is_none());
    assert!(Regression::new(&vec![row.clone(); 5], &[1.0; 5], &[false; 5]).is_none(), "all at one stress");
    let rows: Vec<Vec<f64>> = (0..5).map(|k| vec![1.0, f64::from(k)]).collect();
    assert!(Regression::new(&rows, &[1.0; 5], &[true, true, true, false, false]).is_none(), "two failures");
}
