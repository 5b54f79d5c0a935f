using Tankside.Portal.Shell;

namespace Tankside.Portal.Tests.Shell;

/// <summary>Other users of the machine see neither the embedded database nor the letters.</summary>
public class OwnFolderTests
{
    [Fact]
    public void A_folder_that_the_portal_makes_is_closed_to_all_others_and_one_that_was_there_stays_as_it_was()
    {
        var above = Directory.CreateTempSubdirectory("tankside-folder-");
        try
        {
            var (made, there) = (Path.Combine(above.FullName, "made"), above.CreateSubdirectory("there").FullName);
            var before = Mode(there);

            OwnFolder.Make(made);
            OwnFolder.Make(there);

            Assert.True(Directory.Exists(made));
            Assert.Equal(OperatingSystem.IsWindows() ? "" : "UserExecute, UserWrite, UserRead", Mode(made));
            Assert.Equal(before, Mode(there));
        }
        finally
        {
            above.Delete(recursive: true);
        }
    }

    private static string Mode(string folder) => OperatingSystem.IsWindows() ? "" : File.GetUnixFileMode(folder).ToString();
}
