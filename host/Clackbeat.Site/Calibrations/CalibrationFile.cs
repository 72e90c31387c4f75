using Clackbeat.Sensing.Calibrating;
using Tomlyn;
using Tomlyn.Model;

namespace Clackbeat.Site.Calibrations;

/// <summary>Reads a calibration file; <see cref="CalibrationText"/> writes it. Its figures are SI, as their names say.</summary>
public static class CalibrationFile
{
    /// <summary>Reads a calibration file from disk.</summary>
    /// <exception cref="InputException">There is no such file, or its content can't stand.</exception>
    public static Calibration Load(string path)
    {
        if (!File.Exists(path))
        {
            throw new InputException($"{path}: there is no such file. Make one with: clackbeat calibrate --out {path}");
        }

        return Parse(SmallFile.ReadText(path, "a calibration file"), path);
    }

    /// <summary>Reads the text of a calibration file.</summary>
    /// <param name="text">The content.</param>
    /// <param name="fileName">The name that messages show.</param>
    /// <exception cref="InputException">The content can't stand.</exception>
    public static Calibration Parse(string text, string fileName)
    {
        try
        {
            TomlTable root = TomlSerializer.Deserialize<TomlTable>(text) ?? throw new FormatException("it is empty");
            CalibrationFields fields = new(root);
            if (fields.Text("format") != CalibrationText.Format)
            {
                throw new FormatException($"its format is \"{fields.Text("format")}\", this program reads \"{CalibrationText.Format}\"");
            }

            return fields.Calibration();
        }
        catch (Exception broken) when (broken is FormatException or TomlException or InvalidCastException or OverflowException or ArgumentException)
        {
            throw new InputException(
                $"{fileName}: this calibration file can't be used: {broken.Message.ReplaceLineEndings(" ").TrimEnd('.')}. "
                + "Take it from your copy, or calibrate again; it is not made to be edited.",
                broken);
        }
    }
}
